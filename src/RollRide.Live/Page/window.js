// The setting window: which damper coefficients meet every target, over the dampers' lateral position, and where the layouts stand.

import { Figure, frame } from './chart.js';
import { line, marker } from './svg.js';

const perKilo = 1e-3;

export class WindowPlot {
  #app;
  #figure;
  #axes;
  #lines;

  constructor(app) {
    this.#app = app;
    this.#figure = new Figure('window', () => app.redraw());
    this.#axes = this.#figure.layer('axes');
    this.#lines = this.#figure.clipped('lines');
  }

  draw() {
    const { window: study } = this.#app;
    this.#figure.host.hidden = !this.#app.document?.targets;
    if (!this.#figure.isVisible || !study) return;
    // Upright dampers on the top mounts of the selected layout.
    const own = this.#app.selectedLayout()?.name;
    const upright = study.upright?.find(group => group.layouts.includes(own)) ?? study.upright?.[0];
    const byPosition = upright?.byPosition ?? [];
    const placed = this.#app.shownLayouts()
      .map(layout => ({ ...layout, window: study.layouts.find(other => other.name === layout.name) }))
      .filter(layout => Number.isFinite(layout.window?.position_mm));
    const open = byPosition.filter(at => at.isOpen && at.from !== null && at.to !== null);
    const highest = Math.max(1, ...open.map(({ to }) => to), ...placed.map(layout => layout.window.present)) * perKilo * 1.15;
    const widest = Math.max(...byPosition.map(({ position_mm }) => position_mm), ...placed.map(layout => layout.window.position_mm), 1);
    this.#axes.begin();
    this.#lines.begin();
    const { x, y, top, bottom } = frame(this.#figure, this.#axes, {
      title: 'Setting window', left: 34, x: { range: [0, widest], label: 'lateral position, mm' }, y: { range: [0, highest], label: 'kN·s/m' },
    });
    const edge = (points, end) => points.map(point => [x(point.position_mm), y(point[end] * perKilo)]);
    if (open.length > 0) {
      this.#lines.put('open', 'path', { class: 'target', d: line([...edge(open, 'from'), ...edge(open, 'to').reverse()], true) });
      const [first, last] = [open[0], open.at(-1)];
      this.#axes.put('name', 'text', { class: 'note end', x: x(last.position_mm) - 4, y: (y(last.from * perKilo) + y(last.to * perKilo)) / 2 + 4 }, x(last.position_mm) - x(first.position_mm) > 70 ? 'meets all targets' : '');
    } else {
      this.#axes.put('closed', 'text', { class: 'note middle', x: x(widest / 2), y: (top + bottom) / 2 }, 'closed at every position');
    }
    if (Number.isFinite(upright?.closing_mm)) this.#lines.put('closing', 'path', { class: 'reference', d: `M${x(upright.closing_mm)} ${top}V${bottom}` });
    for (const { name, style, isSelected, window } of placed.sort((a, b) => a.isSelected - b.isSelected)) {
      const [at, height] = [x(window.position_mm), y(window.present * perKilo)];
      if (isSelected) this.#lines.put(`${name}line`, 'path', { class: `thread s${style}`, d: `M${at} ${bottom}V${height}` });
      this.#lines.put(name, 'path', { class: `mark s${style}`, d: marker(style, at, height, isSelected ? 6 : 4.5) });
    }
    this.#axes.end();
    this.#lines.end();
  }
}
