// Roll angle and body acceleration over time, with the layout as the file has it behind.

import { Figure, frame } from './chart.js';
import { around, extremes, graph } from './svg.js';

class TimePlot {
  #app;
  #figure;
  #axes;
  #still;
  #own;
  #what;
  // By answer: those of layouts that are not dragged stay as they are.
  #ranges = new WeakMap();
  #paths = new WeakMap();

  constructor(app, id, what) {
    this.#app = app;
    this.#figure = new Figure(id, () => app.redraw());
    this.#axes = this.#figure.layer('axes');
    // What is not dragged lies below what is, and stays as it is painted.
    this.#still = this.#figure.clipped('lines still');
    this.#own = this.#figure.clipped('lines');
    this.#what = what;
  }

  inputs() { return [this.#figure.size, ...this.#app.answerInputs()]; }

  draw() {
    const { key, title, unit, least } = this.#what;
    if (!this.#figure.isVisible) return;
    const curves = this.#app.shownLayouts().filter(layout => layout.answer?.time).map(layout => ({ ...layout, time: layout.answer.time }));
    const given = this.#app.isSelectedChanged() && this.#app.givenAnswer()?.time;
    if (curves.length === 0) return;
    const all = given ? [given, ...curves.map(curve => curve.time)] : curves.map(curve => curve.time);
    const end = Math.max(...all.map(time => (time[key].length - 1) * time.step_s));
    this.#axes.begin();
    this.#still.begin();
    this.#own.begin();
    const { x, y } = frame(this.#figure, this.#axes, {
      title, x: { range: [0, end], label: 'time, s' }, y: { range: around(all.flatMap(time => this.#rangeOf(time)), least), label: unit },
    });
    const scales = [x, y].map(axis => [axis.from, axis.to, axis(axis.from), axis(axis.to)]).join(' ');
    const drawn = time => {
      if (this.#paths.get(time)?.scales !== scales) this.#paths.set(time, { scales, path: graph(time[key].length, i => x(i * time.step_s), i => y(time[key][i])) });
      return this.#paths.get(time).path;
    };
    if (given) {
      this.#still.put('given', 'path', { class: 'given', d: drawn(given) });
      this.#axes.put('label', 'text', { class: 'note end', x: this.#figure.width - 60, y: 17 }, 'grey: as in the file');
    }
    for (const curve of curves)
      (curve.isSelected ? this.#own : this.#still).put(curve.name, 'path', { class: `line thin s${curve.style}`, d: drawn(curve.time) });
    this.#axes.end();
    this.#still.end();
    this.#own.end();
  }

  #rangeOf(time) {
    if (!this.#ranges.has(time)) this.#ranges.set(time, extremes(time[this.#what.key]));
    return this.#ranges.get(time);
  }
}

export const rollPlot = app => new TimePlot(app, 'roll', { key: 'roll_deg', title: 'Roll angle', unit: 'deg', least: [-0.5, 0.5] });
export const accelerationPlot = app => new TimePlot(app, 'acceleration', { key: 'bodyAcceleration_m_per_s2', title: 'Body acceleration', unit: 'm/s²', least: [-0.5, 0.5] });
