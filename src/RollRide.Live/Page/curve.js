// The damper's force–velocity curve: its points are dragged up and down, compression to the right and rebound to the left.

import { Figure, frame } from './chart.js';
import { Handles } from './handles.js';
import { freeFileName } from './kept.js';
import { withEdit, withFile } from './session.js';
import { around, line, number } from './svg.js';
import { member, valueAt } from './paths.js';

const step_N = 10;
const rounded = force => Math.round(force * 10) / 10;
const slowest_m_per_s = 0.3;

export class Curve {
  #app;
  #figure;
  #axes;
  #behind;
  #lines;
  #handles;
  #range = null; // of the forces, kept while a point is dragged

  constructor(app) {
    this.#app = app;
    this.#figure = new Figure('curve', () => app.redraw());
    this.#axes = this.#figure.layer('axes');
    this.#behind = this.#figure.clipped('lines');
    this.#lines = this.#figure.clipped('lines');
    this.#handles = new Handles(this.#figure.svg, app);
    this.zoom = document.getElementById('slow');
    this.zoom.addEventListener('change', () => app.redraw());
  }

  inputs() {
    const { document: scenario, dampers, givenDampers } = this.#app;
    const layout = this.#app.selectedLayout();
    return [this.#figure.size, this.zoom.checked, this.#handles.isHeld, scenario.dampers, scenario.targets, dampers, givenDampers, layout?.written.damper, layout?.style];
  }

  draw() {
    const layout = this.#app.selectedLayout();
    const name = layout && damperOf(layout.written);
    const damper = this.#app.dampers?.[name];
    if (!this.#figure.isVisible || !damper) return;
    const points = this.#pointsOf(name, damper);
    const users = this.#app.layouts().filter(other => damperOf(other.written) === name).length;
    const fastest = this.zoom.checked ? slowest_m_per_s : Math.max(...points.map(([v]) => Math.abs(v)));
    const seen = damper.drawn.filter(([v]) => Math.abs(v) <= fastest * 1.001);
    if (!this.#range || !this.#handles.isHeld) this.#range = around(seen.map(([, force]) => force), [-100, 100]);
    this.#axes.begin();
    this.#behind.begin();
    this.#lines.begin();
    const { x, y, top, bottom, right, left } = frame(this.#figure, this.#axes, {
      title: `Damper “${name}”${users > 1 ? `, in ${users} layouts` : ''}`, left: 50,
      x: { range: [-fastest * 1.03, fastest * 1.03], label: '← rebound    velocity, m/s    compression →' }, y: { range: this.#range, label: 'force, N' },
    });
    const target = this.#app.document.targets?.damperVelocity_m_per_s;
    for (const v of target ? [-target, target] : []) this.#lines.put(`t${v}`, 'path', { class: 'reference', d: `M${x(v)} ${top}V${bottom}` });
    if (target) this.#axes.put('targets', 'text', { class: 'note end', x: right - 4, y: bottom - 6 }, 'dashed: targets');
    const given = this.#app.givenDampers?.[name];
    if (given && this.#app.isDamperChanged(name)) this.#behind.put('given', 'path', { class: 'given', d: line(given.drawn.map(([v, force]) => [x(v), y(force)])) });
    this.#lines.put('drawn', 'path', { class: `line plain s${layout.style}`, d: line(damper.drawn.map(([v, force]) => [x(v), y(force)])) });
    this.#axes.end();
    this.#behind.end();
    this.#lines.end();
    const isInside = ([v]) => x(v) >= left - 1 && x(v) <= right + 1;
    this.#handles.draw(points.map((point, i) => [point, i]).filter(([point]) => point[0] !== 0 && isInside(point))
      .map(([point, i]) => this.#handle(name, damper.forceScale, points, point, i, x, y, layout.style)));
  }

  /** The points as the page's own state has them: the answer may be one move behind. */
  #pointsOf(name, damper) {
    const written = valueAt(this.#app.document, `${member('dampers', name)}.curve`);
    if (written) return written.velocity_m_per_s.map((v, i) => [v, written.force_N[i]]);
    const file = valueAt(this.#app.document, `${member('dampers', name)}.dyno`);
    return this.#app.session.state.files.find(other => other.name === file)?.rows ?? damper.points;
  }

  #handle(name, forceScale, points, [v, written], i, x, y, style) {
    const force = written * forceScale;
    // Compression forces are positive and rebound forces negative, as the reader wants them.
    const to = value => state => this.#withForce(state, name, points, i, rounded((v > 0 ? Math.max(1, value) : Math.min(-1, value)) / forceScale));
    const direction = v > 0 ? 'compression' : 'rebound';
    return {
      key: `${name}${i}`, x: x(v), y: y(force), kind: `point s${style}`, radius: 4.5, now: force, least: v > 0 ? 1 : -10000000, most: v > 0 ? 10000000 : -1,
      label: `Damper ${name}: force at ${number(Math.abs(v), 3)} m/s in ${direction}`,
      text: `${number(force, 0)} N`,
      drag: (_, at, isFine) => to(isFine ? Math.round(y.back(at)) : Math.round(y.back(at) / step_N) * step_N),
      nudge: (right, down, steps) => to(force + (right - down) * steps * step_N),
    };
  }

  // A curve that was read from a file becomes a new file beside the scenario; the old one stays as it is.
  #withForce(state, name, points, i, force) {
    const damper = member('dampers', name);
    if (valueAt(this.#app.document, `${damper}.curve`)) return withEdit(state, { path: `${damper}.curve.force_N[${i}]`, value: force });
    const rows = points.map(([v, other], j) => [v, j === i ? force : other]);
    const file = valueAt(this.#app.document, `${damper}.dyno`);
    const { name: copy, from } = state.files.find(other => other.name === file) ?? { name: editedName(file, state.files), from: file };
    return withFile(withEdit(state, { path: `${damper}.dyno`, value: copy }), { name: copy, from, rows });
  }
}

/** The damper of a layout; the left one where the sides differ. */
export const damperOf = layout => layout.left?.damper ?? layout.damper;

const editedName = (file, files) =>
  freeFileName(`${file.split('/').at(-1).replace(/\.[^.]*$/, '')}-edited.csv`, files.map(other => other.name));
