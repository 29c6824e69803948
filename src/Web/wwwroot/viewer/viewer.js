// A picture looked at closely: deep zoom, the marks over it, choosing between picture and list, marking a place.
import { Drawing } from './drawing.js';
import { bounds, element, parse, path, say, svg, touches, unsvg } from './marks.js';
import { closer, deepZoom } from './zoom.js';

const box = document.querySelector('[data-viewer]');
if (box && window.OpenSeadragon) open();

function open() {
  const [width, height, scale] = [Number(box.dataset.width), Number(box.dataset.height), Number(box.dataset.scale) || null];
  const form = document.querySelector('[data-mark-form]');
  const said = box.querySelector('[data-said]');
  const marks = [...document.querySelectorAll('[data-mark]')].map((item) => ({
    item, id: item.dataset.mark, kind: item.dataset.kind, spots: parse(item.dataset.spots), style: item.dataset.style, number: item.dataset.number,
  }));
  let chosen = marks.find((m) => m.id === box.dataset.chosen) ?? null;
  let draft = null;   // [kind, spots] of the form

  for (const still of box.querySelectorAll('[data-still]')) still.hidden = true;
  const deep = box.querySelector('[data-deep]');
  deep.hidden = false;
  const viewer = deepZoom(deep, box.dataset.info, t('{0}. Arrow keys move the picture, plus and minus bring it closer and further.', box.dataset.name));
  box.querySelector('[data-tools]').hidden = false;

  const shown = element('svg', { class: 'over', 'aria-hidden': 'true' });
  const layer = element('svg', { class: 'over drawing' });
  viewer.container.append(shown, layer);

  const point = ([x, y]) => {
    const at = viewer.viewport.imageToViewerElementCoordinates(new OpenSeadragon.Point(x, y));
    return [at.x, at.y];
  };
  const view = () => {
    const b = viewer.viewport.viewportToImageRectangle(viewer.viewport.getBounds(true));
    const [x, y] = [Math.max(0, b.x), Math.max(0, b.y)];
    return { x, y, width: Math.min(width, b.x + b.width) - x, height: Math.min(height, b.y + b.height) - y };
  };

  const draw = (mark, extra = '') => {
    const spots = mark.spots.map(point);
    const d = path(mark.kind, spots);
    const group = element('g', { class: `mark ${mark.style}${mark === chosen ? ' chosen' : ''}${extra}` });
    group.append(element('path', { class: 'halo', d }), element('path', { class: 'drawn', d }));
    if (mark.number) {
      const [x, y] = spots.reduce((top, s) => (s[1] + s[0] / 1000 < top[1] + top[0] / 1000 ? s : top));
      const text = element('text', { x: x + 4, y: y - 6, 'font-size': 17 });
      text.textContent = mark.number;
      group.append(text);
    }
    return group;
  };
  const redraw = () => {
    if (!viewer.viewport || !viewer.world.getItemCount()) return;
    shown.replaceChildren(...marks.map((m) => draw(m)), ...(draft ? [draw({ kind: draft[0], spots: draft[1], style: 'note' }, ' draft')] : []));
    const now = drawing.kind ? [...drawing.spots] : [];
    layer.replaceChildren(...(now.length ? [draw({ kind: drawing.kind, spots: now, style: 'note' }, ' draft')] : []),
      ...(drawing.cross ? [draw({ kind: 'point', spots: [drawing.cross], style: 'note' }, ' cross')] : []));
  };

  const zoomTo = (spots) => {
    const b = bounds(spots);
    const pad = Math.max(b.width, b.height, Math.max(width, height) / 12) * 0.3;
    closer(viewer, { x: b.x - pad, y: b.y - pad, width: b.width + 2 * pad, height: b.height + 2 * pad });
  };
  const choose = (mark, { zoom, list }) => {
    chosen = mark;
    for (const m of marks) {
      m.item.classList.toggle('chosen', m === mark);
      const go = m.item.querySelector('[data-go]');
      if (m === mark) go.setAttribute('aria-current', 'true');
      else go.removeAttribute('aria-current');
    }
    if (mark && zoom) zoomTo(mark.spots);
    if (mark && list) mark.item.scrollIntoView({ block: 'nearest', behavior: 'auto' });
    if (mark) said.textContent = mark.item.querySelector('[data-go]').textContent.trim().replace(/\s+/g, ' ');
    redraw();
  };
  for (const mark of marks) {
    mark.item.querySelector('[data-go]').addEventListener('click', (event) => {
      event.preventDefault();
      choose(mark, { zoom: true });
      box.scrollIntoView({ block: 'nearest' });
    });
  }

  // Of several that lie over each other the smallest is meant.
  viewer.addHandler('canvas-click', (event) => {
    if (!event.quick) return;
    const at = [event.position.x, event.position.y];
    const size = (m) => { const b = bounds(m.spots); return b.width * b.height; };
    const hit = marks.filter((m) => touches(m.kind, m.spots.map(point), at)).sort((a, b) => size(a) - size(b))[0];
    if (hit) choose(hit, { list: true });
  });

  // ---- marking
  const tools = [...box.querySelectorAll('[data-tool]')];
  const during = box.querySelector('[data-drawing]');
  const place = form?.querySelector('[data-place]');
  const field = (name) => form.elements.namedItem(name);
  const drawing = new Drawing(layer, {
    width, height, scale, view, change: () => redraw(),
    toPicture: (x, y) => {
      const edge = viewer.container.getBoundingClientRect();
      const at = viewer.viewport.viewerElementToImageCoordinates(new OpenSeadragon.Point(x - edge.left, y - edge.top));
      return [at.x, at.y];
    },
    said: (text) => { said.textContent = text; },
    set: (kind, spots) => {
      takeOver(kind, spots);
      pressed(null);
      said.textContent = t('Set. {0} Now say what it shows.', say(kind, spots, scale));
      const first = (kind === 'line' ? form.querySelector('[name=length]') : null) ?? form.querySelector('[name=shows], [name=word]');
      first.focus({ preventScroll: true });
      form.scrollIntoView({ block: 'start' });
    },
    left: () => {
      const button = tools.find((t) => t.getAttribute('aria-pressed') === 'true');
      pressed(null);
      said.textContent = '';
      button?.focus();
    },
  });

  const pressed = (button) => {
    for (const t of tools) t.setAttribute('aria-pressed', String(t === button));
    if (during) during.hidden = !button;
  };
  for (const tool of tools) {
    // Who may only look is given no form, and no tools for it.
    tool.hidden = !form;
    tool.addEventListener('click', () => {
      if (tool.getAttribute('aria-pressed') === 'true') {
        drawing.leave();
        return;
      }
      pressed(tool);
      drawing.start(tool.dataset.tool === 'polygon' ? 'outline' : tool.dataset.tool);
    });
  }
  during?.querySelector('[data-do=set]').addEventListener('click', () => drawing.set());
  during?.querySelector('[data-do=leave]').addEventListener('click', () => drawing.leave());

  const showPlace = () => {
    for (const only of form.querySelectorAll('[data-only-line]')) only.hidden = draft?.[0] !== 'line';
    place.hidden = !draft;
    place.textContent = draft ? say(draft[0], draft[1], scale) : '';
    redraw();
  };
  const takeOver = (kind, spots) => {
    const b = bounds(spots);
    const rectangle = kind === 'rectangle';
    for (const [name, value] of [['x', b.x], ['y', b.y], ['width', b.width], ['height', b.height]]) field(name).value = rectangle ? Math.round(value) : '';
    field('drawn').value = rectangle ? '' : svg(kind, spots);
    draft = [kind, spots];
    showPlace();
  };
  const fromForm = () => {
    const [x, y, w, h] = ['x', 'y', 'width', 'height'].map((name) => (field(name).value.trim() === '' ? NaN : Number(field(name).value)));
    draft = [x, y, w, h].every(Number.isFinite) ? ['rectangle', [[x, y], [x + w, y + h]]] : field('drawn').value ? unsvg(field('drawn').value) : null;
    showPlace();
  };
  if (form) {
    for (const name of ['x', 'y', 'width', 'height']) field(name).addEventListener('input', fromForm);
  }

  // ---- looking
  const looks = { in: () => viewer.viewport.zoomBy(1.6), out: () => viewer.viewport.zoomBy(1 / 1.6), whole: () => viewer.viewport.goHome() };
  for (const look of box.querySelectorAll('[data-look]')) {
    look.addEventListener('click', () => { looks[look.dataset.look](); viewer.viewport.applyConstraints(); });
  }

  for (const event of ['update-viewport', 'resize', 'open']) viewer.addHandler(event, redraw);
  viewer.addHandler('open', () => {
    if (form) fromForm();
    if (draft) zoomTo(draft[1]);
    else if (chosen) choose(chosen, { zoom: true });
    box.dataset.ready = '';
  });
}
