// The little drawing that the figures need: nodes kept between redraws, scales, ticks, paths and markers.

import { setText } from './elements.js';

const namespace = 'http://www.w3.org/2000/svg';

/** Makes a node of a drawing. */
export function node(tag, attributes = {}, parent = null) {
  const made = document.createElementNS(namespace, tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  parent?.append(made);
  return made;
}

/**
 * A group whose nodes are kept by key from one redraw to the next: only attributes that differ are written, and nodes not put again
 * go. The focus so stays where it is, and a drag makes no garbage.
 */
export class Layer {
  #nodes = new Map();
  #unused = new Set();

  constructor(parent, attributes = {}) {
    this.group = node('g', attributes, parent);
  }

  begin() { this.#unused = new Set(this.#nodes.keys()); }

  end() {
    for (const key of this.#unused) {
      this.#nodes.get(key).node.remove();
      this.#nodes.delete(key);
    }
  }

  put(key, tag, attributes, text) {
    let entry = this.#nodes.get(key);
    if (!entry) this.#nodes.set(key, entry = { node: node(tag, {}, this.group), written: {}, text: undefined });
    this.#unused.delete(key);
    for (const name in attributes) {
      if (entry.written[name] === attributes[name]) continue;
      entry.written[name] = attributes[name];
      if (attributes[name] === null) entry.node.removeAttribute(name);
      else entry.node.setAttribute(name, attributes[name]);
    }
    if (text !== undefined && entry.text !== text) setText(entry.node, entry.text = text);
    return entry.node;
  }
}

/** A linear scale from a range of values to one of pixels. */
export function scale(from, to, start, end) {
  const rate = (end - start) / (to - from);
  const of = value => start + (value - from) * rate;
  of.back = pixel => from + (pixel - start) / rate;
  of.from = from;
  of.to = to;
  return of;
}

/** Round values within a range, about as many as wanted but never a single one: 1, 2 or 5 times a power of ten apart. */
export function ticks(from, to, wanted) {
  const raw = (to - from) / wanted;
  const power = 10 ** Math.floor(Math.log10(raw));
  const step = power * [1, 2, 5, 10].find(factor => factor * power >= raw * 0.999);
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const found = [];
  for (let i = Math.ceil(from / step - 1e-9); i * step <= to + step * 1e-9; i++)
    found.push({ value: i * step, text: number(i * step, decimals) });
  return found.length < 2 && to > from ? ticks(from, to, 2 * wanted) : found;
}

/** A number with a true minus sign. */
export function number(value, decimals) {
  const text = value.toFixed(decimals);
  return text.startsWith('-') ? (Number(text) === 0 ? text.slice(1) : `−${text.slice(1)}`) : text;
}

/** The least and the greatest of a list of values, together with those of others. */
export function extremes(values, [least, greatest] = [Infinity, -Infinity]) {
  for (const value of values) {
    if (value < least) least = value;
    if (value > greatest) greatest = value;
  }
  return [least, greatest];
}

/** A range that holds all values, with some room about them. */
export function around(values, least, room = 0.06) {
  const [from, to] = extremes(values, least);
  const margin = (to - from) * room;
  return [from < least[0] ? from - margin : from, to > least[1] ? to + margin : to];
}

/** A path through points in pixels; a gap where one is not finite. */
export function line(points, isClosed = false) {
  let text = '';
  let pen = 'M';
  for (const [x, y] of points) {
    if (!Number.isFinite(x) || !Number.isFinite(y)) {
      pen = 'M';
      continue;
    }
    text += `${pen}${x.toFixed(1)} ${y.toFixed(1)}`;
    pen = 'L';
  }
  return isClosed && text ? `${text}Z` : text;
}

const unseen_px = 0.3;

/**
 * A path along a function of x with only the corners that can be seen: it passes every point within a third of a pixel. From each
 * corner it goes on as far as one straight line does ("swinging door"); a line of fewer corners is drawn several times as fast.
 */
export function graph(count, x, y) {
  let [cornerX, cornerY] = [x(0), y(0)];
  let text = `M${cornerX.toFixed(1)} ${cornerY.toFixed(1)}`;
  let [steepest, flattest] = [Infinity, -Infinity];
  let [lastX, lastY] = [cornerX, cornerY];
  for (let i = 1; i < count; i++) {
    const [nowX, nowY] = [x(i), y(i)];
    const slope = (nowY - cornerY) / (nowX - cornerX);
    if (slope > steepest || slope < flattest) {
      text += `L${lastX.toFixed(1)} ${lastY.toFixed(1)}`;
      [cornerX, cornerY] = [lastX, lastY];
      [steepest, flattest] = [Infinity, -Infinity];
    }
    const room = unseen_px / (nowX - cornerX);
    const ahead = (nowY - cornerY) / (nowX - cornerX);
    [steepest, flattest] = [Math.min(steepest, ahead + room), Math.max(flattest, ahead - room)];
    [lastX, lastY] = [nowX, nowY];
  }
  return `${text}L${lastX.toFixed(1)} ${lastY.toFixed(1)}`;
}

const shapes = [
  (x, y, r) => `M${x - r} ${y}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0Z`,
  (x, y, r) => `M${x - r} ${y - r}h${2 * r}v${2 * r}h${-2 * r}Z`,
  (x, y, r) => `M${x} ${y - 1.2 * r}l${1.15 * r} ${2 * r}h${-2.3 * r}Z`,
  (x, y, r) => `M${x} ${y - 1.35 * r}l${1.35 * r} ${1.35 * r}l${-1.35 * r} ${1.35 * r}l${-1.35 * r} ${-1.35 * r}Z`,
];

/** The marker of a layout's style: circle, square, triangle, diamond, filled for the first four and open for the others. */
export const marker = (style, x, y, radius) => shapes[style % shapes.length](x, y, radius);
