// The damping ratio of each mode beside its target.

import { Figure, frame } from './chart.js';
import { line, marker } from './svg.js';

const found = new WeakMap(); // by answer

function dampingRatios(answer) {
  if (!found.has(answer)) found.set(answer, dampingRatiosIn(answer));
  return found.get(answer);
}

// At the targets' velocity for a mode that has a target, else at the reference velocity.
function dampingRatiosIn({ rows }) {
  const all = rows.filter(row => /DampingRatio(AtTargets)?$/.test(row.key) && row.value !== null);
  return all.filter(row => row.target || !all.some(other => other.target && modeOf(other) === modeOf(row)))
    .sort((a, b) => rows.findIndex(row => modeOf(row) === modeOf(a)) - rows.findIndex(row => modeOf(row) === modeOf(b)));
}

export class Ratios {
  #app;
  #figure;
  #axes;
  #lines;

  constructor(app) {
    this.#app = app;
    this.#figure = new Figure('ratios', () => app.redraw());
    this.#axes = this.#figure.layer('axes');
    this.#lines = this.#figure.clipped('lines');
  }

  inputs() { return [this.#figure.size, ...this.#app.answerInputs()]; }

  draw() {
    const layouts = this.#app.shownLayouts().filter(layout => layout.answer?.rows);
    if (!this.#figure.isVisible || layouts.length === 0) return;
    const modes = dampingRatios((layouts.find(layout => layout.isSelected) ?? layouts[0]).answer);
    const values = layouts.flatMap(layout => dampingRatios(layout.answer)).flatMap(row => [row.value, row.target?.atMost ?? 0, row.target?.atLeast ?? 0]);
    this.#axes.begin();
    this.#lines.begin();
    const { x, y, top, bottom } = frame(this.#figure, this.#axes, {
      title: 'Damping ratios', left: 34,
      x: { range: [-0.5, modes.length - 0.5], ticks: modes.map((row, i) => ({ value: i, text: modeOf(row) })), label: modes.some(row => row.target) ? 'green: target' : '' },
      y: { range: [0, Math.max(0.3, ...values) * 1.08] },
    });
    modes.forEach(({ key, target }, i) => {
      if (target) {
        const [from, to] = [y(target.atLeast ?? y.from), y(target.atMost ?? y.to)];
        this.#lines.put(`${key}band`, 'rect', { class: 'target', x: x(i - 0.45), width: x(0.9) - x(0), y: Math.max(top, to), height: Math.max(0, Math.min(bottom, from) - Math.max(top, to)) });
        for (const limit of [target.atLeast, target.atMost].filter(Number.isFinite))
          this.#lines.put(`${key}${limit}`, 'path', { class: 'limit', d: `M${x(i - 0.45)} ${y(limit)}H${x(i + 0.45)}` });
      }
      layouts.forEach(({ name, style, answer, isSelected }, place) => {
        const value = dampingRatios(answer).find(row => row.key === key)?.value;
        if (!Number.isFinite(value)) return;
        const at = x(i + (place - (layouts.length - 1) / 2) * 0.2);
        this.#lines.put(`${key} stem of ${name}`, 'path', { class: `stem s${style}`, d: line([[at, y(0)], [at, y(value)]]) });
        this.#lines.put(`${key} of ${name}`, 'path', { class: `mark s${style}`, d: marker(style, at, y(value), isSelected ? 5 : 4) });
      });
    });
    this.#axes.end();
    this.#lines.end();
  }
}

const modeOf = row => row.label.split(',')[0];
