// Drawing one shape over the picture with mouse, finger or keyboard.
import { say } from './marks.js';

const HELP = {
  rectangle: t('Draw from corner to corner. Or: arrow keys move it, Shift with arrow keys sizes it, Enter sets it, Escape leaves.'),
  outline: t('Touch corner after corner, then “Set it”. Or: arrow keys move the cross, Space sets a corner, Backspace takes one back, Enter sets the outline, Escape leaves.'),
  line: t('Draw from end to end. Or: arrow keys move the cross, Space sets an end, Enter sets the line, Escape leaves.'),
  point: t('Touch the place. Or: arrow keys move the cross, Enter sets it, Escape leaves.'),
};

const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

export class Drawing {
  kind = null;
  spots = [];      // what stands, in pixels of the picture
  #cross = null;   // where the keyboard is
  #from = null;    // where the pointer went down
  #before = [];    // what stood when it did

  /**
   * @param layer the SVG that lies over the picture while drawing
   * @param on { toPicture(x, y), view() as a box in pixels of the picture, width, height, scale, change(), set(kind, spots), left(), said(text) }
   */
  constructor(layer, on) {
    this.layer = layer;
    this.on = on;
    layer.addEventListener('pointerdown', (e) => this.#down(e));
    layer.addEventListener('pointermove', (e) => this.#move(e));
    layer.addEventListener('pointerup', (e) => this.#up(e));
    layer.addEventListener('pointercancel', () => { this.#from = null; this.#show(this.#before); });
    layer.addEventListener('keydown', (e) => this.#key(e));
  }

  start(kind) {
    const view = this.on.view();
    const middle = [view.x + view.width / 2, view.y + view.height / 2].map(Math.round);
    const [w, h] = [view.width / 6, view.height / 6];
    this.kind = kind;
    this.#from = null;
    this.#cross = this.#within(middle);
    this.layer.classList.add('active');
    this.layer.setAttribute('tabindex', '0');
    this.layer.setAttribute('role', 'application');
    this.layer.setAttribute('aria-label', t('Drawing on the picture. {0}', HELP[kind]));
    this.layer.focus({ preventScroll: true });
    this.on.said(HELP[kind]);
    // The keyboard needs something to move; a pointer begins afresh anyway.
    this.#show(kind === 'rectangle' ? [this.#within([middle[0] - w, middle[1] - h]), this.#within([middle[0] + w, middle[1] + h])].map((s) => s.map(Math.round)) : []);
  }

  /** The cross of the keyboard, where there is one to be shown. */
  get cross() { return this.kind && this.kind !== 'rectangle' && !this.#from ? this.#cross : null; }

  set() {
    const spots = this.kind === 'point' && this.spots.length === 0 ? [this.#cross]
      : this.kind === 'line' && this.spots.length === 1 ? [this.spots[0], this.#cross] : this.spots;
    if (spots.length < { rectangle: 2, outline: 3, line: 2, point: 1 }[this.kind]) {
      this.on.said(this.kind === 'outline' ? n(spots.length, 'An outline has three corners at least; there is {0} so far.|An outline has three corners at least; there are {0} so far.', spots.length) : HELP[this.kind]);
      return;
    }
    const kind = this.kind;
    this.#end();
    this.on.set(kind, spots);
  }

  leave() {
    this.#end();
    this.on.left();
  }

  #end() {
    this.kind = null;
    this.spots = [];
    this.layer.classList.remove('active');
    for (const name of ['tabindex', 'role', 'aria-label']) this.layer.removeAttribute(name);
    this.on.change();
  }

  #show(spots) {
    this.spots = spots;
    this.on.change();
  }

  #within([x, y]) {
    return [Math.max(0, Math.min(this.on.width, x)), Math.max(0, Math.min(this.on.height, y))];
  }

  #at(event) {
    const at = this.#within(this.on.toPicture(event.clientX, event.clientY));
    return this.kind === 'rectangle' ? at.map(Math.round) : at;
  }

  #down(event) {
    if (!this.kind || event.button !== 0 || !event.isPrimary) return; // A second finger draws nothing.
    event.preventDefault();
    this.layer.setPointerCapture(event.pointerId);
    this.#before = this.spots;
    this.#from = this.#at(event);
    this.#cross = this.#from;
    if (this.kind === 'point') this.#show([this.#from]);
    if (this.kind === 'outline') this.#show([...this.spots, this.#from]);
  }

  #move(event) {
    if (!this.#from || !event.isPrimary) return;
    const at = this.#at(event);
    if (this.kind === 'point') this.#show([at]);
    else if (this.kind === 'outline') this.#show([...this.#before, at]);
    else this.#show(this.#ordered(this.#from, at));
  }

  #up(event) {
    if (!this.#from || !event.isPrimary) return;
    const [from, at] = [this.#from, this.#at(event)];
    this.#from = null;
    this.#cross = at;
    if (this.kind === 'outline') {
      this.#count();
      return;
    }
    if (this.kind === 'point' || Math.hypot(at[0] - from[0], at[1] - from[1]) >= 2) {
      this.set();
    } else if (this.kind === 'line') {
      // Touched, not drawn: an end at a time.
      const ends = this.#before.length === 1 ? [this.#before[0], at] : [at];
      this.#show(ends);
      if (ends.length === 2) this.set();
      else this.on.said(t('One end is set. Touch the other.'));
    } else {
      this.#show(this.#before);
    }
  }

  // A rectangle is kept as its upper left and lower right corner, a line as it was drawn.
  #ordered(a, b) {
    return this.kind === 'rectangle' ? [[Math.min(a[0], b[0]), Math.min(a[1], b[1])], [Math.max(a[0], b[0]), Math.max(a[1], b[1])]] : [a, b];
  }

  #count() {
    this.on.said(`${n(this.spots.length, '{0} corner.|{0} corners.', this.spots.length)} ${this.spots.length > 2 ? t('“Set it” when it is whole.') : ''}`);
  }

  #key(event) {
    if (!this.kind) return;
    const arrow = ARROWS[event.key];
    if (arrow) this.#arrow(arrow, event.shiftKey);
    else if (event.key === 'Enter') this.set();
    else if (event.key === 'Escape') this.leave();
    else if (event.key === ' ' && (this.kind === 'outline' || this.kind === 'line')) this.#space();
    else if (event.key === 'Backspace') { this.#show(this.spots.slice(0, -1)); this.#count(); }
    else return;
    event.preventDefault();
    event.stopPropagation();
  }

  #space() {
    if (this.kind === 'line' && this.spots.length === 1) {
      this.set();
      return;
    }
    this.#show([...this.spots, this.#cross]);
    if (this.kind === 'line') this.on.said(t('One end is set. Move on with the arrow keys, then Enter.'));
    else this.#count();
  }

  #arrow([dx, dy], sizes) {
    const step = Math.max(1, Math.round(this.on.view().width / 100));
    const moved = ([x, y]) => [x + dx * step, y + dy * step];
    if (this.kind === 'rectangle') {
      const [from, to] = this.spots;
      const next = sizes ? [from, this.#within(moved(to))] : [moved(from), moved(to)];
      const fits = next[1][0] - next[0][0] >= 1 && next[1][1] - next[0][1] >= 1 && next.every((s) => this.#within(s).every((n, i) => n === s[i]));
      if (fits) this.#show(next);
      this.on.said(say('rectangle', this.spots, this.on.scale));
      return;
    }
    this.#cross = this.#within(moved(this.#cross));
    this.on.change();
    this.on.said(say(this.kind === 'line' && this.spots.length === 1 ? 'line' : 'point', this.kind === 'line' && this.spots.length === 1 ? [this.spots[0], this.#cross] : [this.#cross], this.on.scale));
  }
}
