// Points of a figure that are dragged with the pointer or moved with the arrow keys.

import { Layer } from './svg.js';

const reach_px = 28;
const arrows = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

/**
 * @typedef {object} Handle
 * @property {string} key
 * @property {number} x in pixels of the figure
 * @property {number} y
 * @property {string} label read by a screen reader
 * @property {string} text its value with the unit
 * @property {number} now the one value that a slider has
 * @property {number} least
 * @property {number} most
 * @property {string} kind class of its mark
 * @property {number} radius of its mark, px
 * @property {(x: number, y: number, isFine: boolean) => (state: State) => State} drag what brings it to a place in pixels
 * @property {(right: number, down: number, steps: number) => (state: State) => State} nudge what an arrow key does; steps are 1, 10 or 0.1
 */

export class Handles {
  #svg;
  #layer;
  #app;
  #handles = new Map();
  #held = null;
  #keyGesture = Symbol();

  /**
   * @param {SVGSVGElement} svg
   * @param {{change: Function, letGo: Function, drawNow: Function}} app takes what a handle does to the state
   */
  constructor(svg, app) {
    this.#svg = svg;
    this.#app = app;
    this.#layer = new Layer(svg, { class: 'handles' });
    svg.addEventListener('pointerdown', event => this.#grab(event));
    svg.addEventListener('pointermove', event => this.#move(event));
    // A browser that tells of a move before its next frame: it is the newest when the server is next asked.
    svg.addEventListener('pointerrawupdate', event => this.#move(event));
    for (const end of ['pointerup', 'pointercancel', 'lostpointercapture'])
      svg.addEventListener(end, () => this.#release());
    this.#layer.group.addEventListener('keydown', event => this.#key(event));
  }

  /** Whether a point is being dragged: the figure then keeps its scale, or the point would run away from the hand. */
  get isHeld() { return this.#held !== null; }

  /** @param {Handle[]} handles in the order in which the Tab key goes through them */
  draw(handles) {
    this.#handles = new Map(handles.map(handle => [handle.key, handle]));
    this.#layer.begin();
    for (const { key, x, y, label, text, now, least, most, kind, radius } of handles) {
      this.#layer.put(key, 'circle', {
        'data-handle': key, class: `handle ${kind}`, cx: x.toFixed(1), cy: y.toFixed(1), r: radius, tabindex: 0, role: 'slider',
        'aria-label': label, 'aria-valuetext': text, 'aria-valuenow': now, 'aria-valuemin': least, 'aria-valuemax': most,
      });
    }
    this.#layer.end();
  }

  #grab(event) {
    if (event.button !== 0) return;
    const box = this.#svg.getBoundingClientRect();
    const [x, y] = [event.clientX - box.left, event.clientY - box.top];
    const distance = handle => Math.hypot(handle.x - x, handle.y - y);
    const nearest = [...this.#handles.values()].reduce((best, handle) => best && distance(best) <= distance(handle) ? best : handle, null);
    if (!nearest || distance(nearest) > reach_px) return;
    event.preventDefault();
    this.#svg.setPointerCapture(event.pointerId);
    this.#svg.classList.add('held');
    this.#layer.group.querySelector(`[data-handle="${CSS.escape(nearest.key)}"]`).focus();
    this.#held = { key: nearest.key, at: [event.clientX, event.clientY], box, offset: [nearest.x - x, nearest.y - y], gesture: Symbol(), pointer: event.pointerId };
  }

  #move(event) {
    const held = this.#held;
    const handle = held && held.pointer === event.pointerId && this.#handles.get(held.key);
    if (!handle || (held.at[0] === event.clientX && held.at[1] === event.clientY)) return;
    held.at = [event.clientX, event.clientY];
    const [x, y] = [event.clientX - held.box.left + held.offset[0], event.clientY - held.box.top + held.offset[1]];
    this.#app.change(handle.drag(x, y, event.altKey), { gesture: held.gesture, since: event.timeStamp, isInHand: true });
  }

  #release() {
    if (!this.#held) return;
    this.#held = null;
    this.#svg.classList.remove('held');
    this.#app.letGo();
  }

  #key(event) {
    const arrow = arrows[event.key];
    // A key acts on what the one before has done, drawn or not.
    if (arrow) this.#app.drawNow();
    const handle = this.#handles.get(event.target.dataset.handle);
    if (!arrow || !handle || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    if (!event.repeat) this.#keyGesture = Symbol();
    this.#app.change(handle.nudge(...arrow, event.shiftKey ? 10 : event.altKey ? 0.1 : 1), { gesture: this.#keyGesture, since: event.timeStamp });
  }
}
