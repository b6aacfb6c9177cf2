// What the figures share: their size, frame, axes and title.

import { Layer, scale, ticks } from './svg.js';

/** A figure's drawing, redrawn when its size changes. */
export class Figure {
  width = 0;
  height = 0;
  #clipped = [];

  /** @param {string} id of the figure's element */
  constructor(id, redraw) {
    this.host = document.getElementById(id);
    this.svg = this.host.querySelector('svg');
    new ResizeObserver(() => {
      // In print the picture is scaled as it stands.
      if (matchMedia('print').matches) return;
      const [width, height] = [this.svg.clientWidth, this.svg.clientHeight];
      if (width === 0 || (width === this.width && height === this.height)) return;
      [this.width, this.height] = [width, height];
      this.svg.setAttribute('viewBox', `0 0 ${width} ${height}`);
      redraw();
    }).observe(this.svg);
  }

  get size() { return `${this.width} ${this.height}`; }
  get isVisible() { return this.width > 0; }

  layer(className) { return new Layer(this.svg, { class: className }); }

  /** A layer whose drawing ends at the plot's frame. Layers lie upon each other in the order in which they are made. */
  clipped(className) {
    const view = new Layer(this.svg);
    this.#clipped.push(view);
    return new Layer(view.put('view', 'svg', {}), { class: className });
  }

  clipTo({ left, right, top, bottom }) {
    const [width, height] = [right - left, bottom - top];
    for (const view of this.#clipped) view.put('view', 'svg', { x: left, y: top, width, height, viewBox: `${left} ${top} ${width} ${height}` });
  }
}

/**
 * Draws grid, tick labels, axis titles and the title of a plot.
 * @returns {{x: Function, y: Function, left: number, right: number, top: number, bottom: number}} the scales and the frame in pixels
 */
export function frame(figure, layer, { title, x, y, left = 44, right = 10, top = 26, bottom = 34 }) {
  const box = { left, right: figure.width - right, top, bottom: figure.height - bottom };
  const across = scale(...x.range, box.left, box.right);
  const up = scale(...y.range, box.bottom, box.top);
  layer.put('title', 'text', { class: 'title', x: 10, y: 17 }, title);
  for (const tick of ticks(...y.range, Math.max(2, (box.bottom - box.top) / 34))) {
    const at = up(tick.value).toFixed(1);
    layer.put(`y${tick.text}`, 'path', { class: tick.value === 0 ? 'zero' : 'grid', d: `M${box.left} ${at}H${box.right}` });
    layer.put(`yt${tick.text}`, 'text', { class: 'tick end', x: box.left - 5, y: Number(at) + 4 }, tick.text);
  }
  for (const tick of x.ticks ?? ticks(...x.range, Math.max(2, (box.right - box.left) / 60))) {
    const at = across(tick.value).toFixed(1);
    if (!x.ticks) layer.put(`x${tick.text}`, 'path', { class: tick.value === 0 ? 'zero' : 'grid', d: `M${at} ${box.top}V${box.bottom}` });
    layer.put(`xt${tick.text}`, 'text', { class: 'tick middle', x: at, y: box.bottom + 14 }, tick.text);
  }
  if (x.label) layer.put('xl', 'text', { class: 'axis middle', x: (box.left + box.right) / 2, y: figure.height - 6 }, x.label);
  if (y.label) layer.put('yl', 'text', { class: 'axis end', x: figure.width - 10, y: 17 }, y.label);
  figure.clipTo(box);
  return { x: across, y: up, ...box };
}
