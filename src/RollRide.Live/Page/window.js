// The setting window: which damper coefficients meet every target, over the dampers' lateral position, and where the layouts stand.

import { Figure, frame } from './chart.js';
import { setHidden } from './elements.js';
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

  inputs() { return [this.#figure.size, this.#app.window, this.#app.document?.targets, ...this.#app.answerInputs()]; }

  draw() {
    const { window: study } = this.#app;
    setHidden(this.#figure.host, !this.#app.document?.targets);
    if (!this.#figure.isVisible || this.#figure.host.hidden) return;
    const layouts = !study ? [] : this.#app.shownLayouts()
      .map(layout => ({ ...layout, window: study.layouts.find(other => other.name === layout.name) }))
      .filter(layout => layout.window)
      .sort((a, b) => a.isSelected - b.isSelected);
    // Upright dampers on the top mounts of the selected layout; none where the position does not change the window.
    const own = this.#app.selectedLayout()?.name;
    const upright = study?.upright.find(group => group.layouts.includes(own)) ?? study?.upright[0];
    this.#axes.begin();
    this.#lines.begin();
    if (!study) this.#axes.put('title', 'text', { class: 'title', x: 10, y: 17 }, 'Setting window: computing…');
    else if (upright) this.#overPosition(upright, layouts);
    else this.#sideBySide(layouts);
    this.#axes.end();
    this.#lines.end();
  }

  #overPosition({ byPosition, closing_mm: closing }, layouts) {
    const placed = layouts.filter(layout => Number.isFinite(layout.window.position_mm));
    const open = byPosition.filter(isOpen);
    const widest = Math.max(...byPosition.map(({ position_mm }) => position_mm), ...placed.map(layout => layout.window.position_mm));
    const { x, y, top, bottom } = this.#frame({ range: [0, widest], label: 'lateral position, mm' }, [...open.map(({ to }) => to), ...placed.map(layout => layout.window.present)]);
    const edge = end => open.map(at => [x(at.position_mm), y(at[end] * perKilo)]);
    if (open.length > 0) this.#lines.put('open', 'path', { class: 'target', d: line([...edge('from'), ...edge('to').reverse()], true) });
    else this.#axes.put('closed', 'text', { class: 'note middle', x: x(widest / 2), y: top + 12 }, 'closed at every position');
    if (Number.isFinite(closing)) {
      this.#lines.put('closing', 'path', { class: 'reference', d: `M${x(closing)} ${top}V${bottom}` });
      this.#lines.put('closed inboard', 'text', { class: 'note end', x: x(closing) - 4, y: top + 12 }, '← closed');
    }
    for (const { name, style, isSelected, window } of placed) {
      const [at, height] = [x(window.position_mm), y(window.present * perKilo)];
      if (isSelected) this.#lines.put(`${name}line`, 'path', { class: `thread s${style}`, d: `M${at} ${bottom}V${height}` });
      this.#mark(name, style, isSelected, at, height);
    }
  }

  // With independent wheels each layout has its own window, wherever it stands.
  #sideBySide(layouts) {
    const ordered = [...layouts].sort((a, b) => a.index - b.index);
    const { x, y } = this.#frame(
      { range: [-0.5, ordered.length - 0.5], ticks: [], label: 'green: meets all targets' },
      ordered.flatMap(({ window }) => [window.present, ...(isOpen(window) ? [window.to] : [])]));
    ordered.forEach(({ name, style, isSelected, window }, i) => {
      if (isOpen(window))
        this.#lines.put(`${name}open`, 'rect', { class: 'target', x: x(i - 0.4), width: x(0.8) - x(0), y: y(window.to * perKilo), height: y(window.from * perKilo) - y(window.to * perKilo) });
      this.#mark(name, style, isSelected, x(i), y(window.present * perKilo));
    });
  }

  #frame(x, coefficients) {
    return frame(this.#figure, this.#axes, { title: 'Setting window', left: 34, x, y: { range: [0, Math.max(...coefficients, 100) * perKilo * 1.15], label: 'kN·s/m' } });
  }

  #mark(name, style, isSelected, x, y) {
    this.#lines.put(`${name}${isSelected}`, 'path', { class: `mark s${style}`, d: marker(style, x, y, isSelected ? 6 : 4.5) });
  }
}

const isOpen = window => window.isOpen && window.from !== null && window.to !== null;
