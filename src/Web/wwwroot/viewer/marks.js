// Shapes of marks: read, drawn, hit, said. Spots are [x, y] pairs in pixels of the picture unless it says screen.
const NS = 'http://www.w3.org/2000/svg';

export const element = (name, attributes) => {
  const made = document.createElementNS(NS, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  return made;
};

export const parse = (text) => text.split(' ').map((pair) => pair.split(',').map(Number));

export const bounds = (spots) => {
  const [xs, ys] = [spots.map((s) => s[0]), spots.map((s) => s[1])];
  const [x, y] = [Math.min(...xs), Math.min(...ys)];
  return { x, y, width: Math.max(...xs) - x, height: Math.max(...ys) - y };
};

const joined = (spots) => spots.map(([x, y], i) => `${i ? 'L' : 'M'}${x.toFixed(1)} ${y.toFixed(1)}`).join('');

const corners = ([[left, top], [right, bottom]]) => [[left, top], [right, top], [right, bottom], [left, bottom]];

// A short stroke across the end of a line.
const tick = ([x, y], [ox, oy], size) => {
  const length = Math.hypot(ox - x, oy - y) || 1;
  const [ax, ay] = [((y - oy) / length) * size, ((ox - x) / length) * size];
  return `M${x - ax} ${y - ay}L${x + ax} ${y + ay}`;
};

/** The outline of a shape from spots on the screen. */
export const path = (kind, spots) => {
  const [[x, y]] = spots;
  switch (kind) {
    case 'rectangle': return spots.length > 1 ? `${joined(corners(spots))}Z` : path('point', spots);
    case 'outline': return spots.length > 2 ? `${joined(spots)}Z` : joined(spots) + path('point', spots.slice(-1));
    case 'line': return spots.length > 1 ? joined(spots) + tick(spots[0], spots[1], 9) + tick(spots[1], spots[0], 9) : path('point', spots);
    default: return `M${x - 13} ${y}H${x + 13}M${x} ${y - 13}V${y + 13}M${x - 8} ${y}a8 8 0 1 0 16 0a8 8 0 1 0 -16 0`;
  }
};

const toSegment = ([px, py], [ax, ay], [bx, by]) => {
  const [dx, dy] = [bx - ax, by - ay];
  const along = Math.max(0, Math.min(1, ((px - ax) * dx + (py - ay) * dy) / (dx * dx + dy * dy || 1)));
  return Math.hypot(px - ax - along * dx, py - ay - along * dy);
};

const inside = ([px, py], spots) => spots.reduce((is, [ax, ay], i) => {
  const [bx, by] = spots[(i + 1) % spots.length];
  return (ay > py) !== (by > py) && px < ((bx - ax) * (py - ay)) / (by - ay) + ax ? !is : is;
}, false);

/** Whether a place on the screen touches a shape on the screen. */
export const touches = (kind, spots, at, slack = 14) => {
  if (kind === 'point') return Math.hypot(at[0] - spots[0][0], at[1] - spots[0][1]) <= slack * 1.5;
  if (kind === 'line') return toSegment(at, spots[0], spots[1]) <= slack;
  const ring = kind === 'rectangle' ? corners(spots) : spots;
  return inside(at, ring) || ring.some((s, i) => toSegment(at, s, ring[(i + 1) % ring.length]) <= slack);
};

const number = (n) => String(Math.round(n * 100) / 100);

/** A shape that is no rectangle as the SVG that is kept. */
export const svg = (kind, spots) => {
  const [[x, y], [x2, y2] = []] = spots;
  const drawn = kind === 'outline' ? `<polygon points="${spots.map((s) => s.map(number).join(',')).join(' ')}"/>`
    : kind === 'line' ? `<line x1="${number(x)}" y1="${number(y)}" x2="${number(x2)}" y2="${number(y2)}"/>`
      : `<circle cx="${number(x)}" cy="${number(y)}" r="5"/>`;
  return `<svg xmlns="${NS}">${drawn}</svg>`;
};

/** The shape of such an SVG, for a form that comes back. */
export const unsvg = (text) => {
  const drawn = new DOMParser().parseFromString(text, 'image/svg+xml').documentElement.firstElementChild;
  const at = (...names) => names.map((n) => Number(drawn.getAttribute(n)));
  switch (drawn?.localName) {
    case 'polygon': return ['outline', parse(drawn.getAttribute('points'))];
    case 'line': return ['line', [at('x1', 'y1'), at('x2', 'y2')]];
    case 'circle': return ['point', [at('cx', 'cy')]];
    default: return null;
  }
};

/** A shape in words. */
export const say = (kind, spots, scale) => {
  const size = bounds(spots);
  const whole = (n) => Math.round(n);
  if (kind === 'point') return t('A point, {0} from the left and {1} from the top.', whole(spots[0][0]), whole(spots[0][1]));
  if (kind === 'line') {
    const pixels = Math.hypot(size.width, size.height);
    return scale ? t('A line of {0} pixels, about {1} mm.', whole(pixels), (pixels / scale).toFixed(1)) : t('A line of {0} pixels.', whole(pixels));
  }
  const box = [size.width, size.height, size.x, size.y].map(whole);
  return kind === 'outline' ? t('An outline of {4} corners, {0} wide and {1} high, {2} from the left and {3} from the top.', ...box, spots.length)
    : t('A rectangle, {0} wide and {1} high, {2} from the left and {3} from the top.', ...box);
};
