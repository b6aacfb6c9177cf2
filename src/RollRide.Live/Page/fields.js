// Every number of the scenario as a field: the usual ones first, all others by search.

import { damperOf } from './curve.js';
import { byId, element, setHidden, setText } from './elements.js';
import { isWithin, member, valueAt } from './paths.js';
import { withEdit, withoutEdits } from './session.js';

const mostFound = 60;

export class Fields {
  #app;
  #list = byId('fieldList');
  #search = byId('search');
  #rows = new Map();
  #shape = '';
  #gesture = Symbol();
  #unread = new Map(); // what stands in a field and is no number, by path
  #before = null; // what was said of the field before the hand came to it

  constructor(app) {
    this.#app = app;
    this.#search.addEventListener('input', () => this.draw());
    this.#list.addEventListener('focusin', event => this.#explain(event.target.dataset.path));
    this.#list.addEventListener('input', event => this.#typed(event.target));
    this.#list.addEventListener('change', event => this.#left(event.target));
    this.#list.addEventListener('keydown', event => this.#step(event));
  }

  inputs() {
    const { start, document: scenario, faults, dampers } = this.#app;
    return [start, scenario, faults, dampers, this.#app.selectedLayout()?.written];
  }

  draw() {
    const fields = this.#app.start.fields ?? [];
    const words = this.#search.value.trim().toLowerCase().split(/\s+/).filter(Boolean);
    const found = words.length > 0 ? fields.filter(field => words.every(word => textOf(field).includes(word))) : this.#prominent(fields);
    const seen = found.slice(0, mostFound);
    const shape = seen.map(field => field.path).join('\n');
    if (shape !== this.#shape) this.#build(seen);
    this.#shape = shape;
    setText(byId('found'), words.length === 0 ? '' : found.length > seen.length ? `${found.length} numbers found, the first ${seen.length} shown` : `${found.length} found`);
    for (const field of seen) this.#write(field);
  }

  #prominent(fields) {
    const layout = this.#app.selectedLayout();
    const damper = this.#app.dampers?.[layout && damperOf(layout.written)];
    const wanted = new Set([...this.#app.start.prominent, ...(damper?.parameters ?? [])]);
    const ratios = layout ? `layouts[${layout.index}].placement.motionRatios` : null;
    // Of the damper all that the file gives but the points of its curve, which are dragged in the figure.
    const isOfDamper = ({ path, isWritten }) => damper && isWritten && isWithin(path, damper.path) && !isWithin(path, `${damper.path}.curve`);
    return fields.filter(field => wanted.has(field.path) || (ratios && isWithin(field.path, ratios)) || isOfDamper(field));
  }

  #build(fields) {
    this.#rows.clear();
    const parts = [];
    let group = null;
    for (const field of fields) {
      if (field.group !== group) parts.push(element('h2', {}, group = field.group));
      parts.push(this.#row(field));
    }
    this.#list.replaceChildren(...parts);
  }

  #row(field) {
    const id = `field-${this.#rows.size}`;
    const shared = { id, 'data-path': field.path, 'aria-describedby': `${id}-about ${id}-fault` };
    const input = field.names
      ? element('select', shared, ...['', ...field.names].filter(name => name !== '' || !field.value).map(name => element('option', { value: name }, name || 'not given')))
      : element('input', { ...shared, type: 'text', inputmode: 'decimal', autocomplete: 'off', spellcheck: 'false', role: 'spinbutton', placeholder: 'not given' });
    const fault = element('p', { class: 'fault', id: `${id}-fault`, hidden: true });
    const row = element('div', { class: 'field' },
      element('label', { for: id }, field.label),
      element('span', { class: 'entry' }, input, element('span', { class: 'unit' }, field.unit ?? '')),
      element('span', { id: `${id}-about`, hidden: true }, about(field)), fault);
    this.#rows.set(field.path, { row, input, fault });
    return row;
  }

  #write(field) {
    const entry = this.#rows.get(field.path);
    const { row, input, fault } = entry;
    const now = this.#valueOf(field);
    const unread = this.#unread.get(field.path);
    const found = this.#app.faults.find(one => isWithin(one.path ?? '', field.path));
    const message = unread ?? (found && [found.value, found.message].filter(Boolean).join(': '));
    if (entry.isWritten && entry.now === now && entry.message === message && document.activeElement !== input) return;
    Object.assign(entry, { isWritten: true, now, message });
    if (field.names) input.value = now ?? '';
    else this.#writeNumber(field, input, now, unread);
    row.classList.toggle('changed', now !== (field.value ?? undefined));
    setText(fault, message ?? '');
    setHidden(fault, !message);
    input.setAttribute('aria-invalid', Boolean(message));
  }

  #writeNumber(field, input, now, unread) {
    if (unread === undefined && !(document.activeElement === input && Number(input.value) === now && input.value !== ''))
      input.value = typeof now === 'number' ? String(now) : '';
    for (const [name, value] of [['aria-valuenow', now], ['aria-valuemin', field.limits?.atLeast ?? field.limits?.above], ['aria-valuemax', field.limits?.atMost ?? field.limits?.below]]) {
      if (typeof value === 'number') input.setAttribute(name, value);
      else input.removeAttribute(name);
    }
    input.setAttribute('aria-valuetext', typeof now === 'number' ? `${now} ${field.unit ?? ''}`.trim() : 'not given');
  }

  #valueOf(field) {
    const written = valueAt(this.#app.document, field.path);
    if (written !== undefined) return written;
    return field.isWritten ? undefined : field.value ?? undefined;
  }

  #typed(input) {
    const { path } = input.dataset;
    if (input instanceof HTMLSelectElement) return this.#chosen(path, input.value);
    const text = input.value.trim().replace('−', '-');
    const value = Number(text);
    if (text === '') return;
    if (!Number.isFinite(value)) {
      // What was typed up to here was a number by chance: “70” of “70,5”.
      this.#unread.set(path, text.includes(',') ? 'Not taken: write a decimal point, without commas.' : 'Not taken: write a number.');
      this.#app.change(state => this.#before ? withEdit(state, this.#before) : withoutEdits(state, path), { gesture: this.#gesture });
      this.draw();
      return;
    }
    const wasUnread = this.#unread.delete(path);
    this.#app.change(state => withEdit(state, { path, value }), { gesture: this.#gesture, since: performance.now() });
    // Back to what it was: nothing else has changed that would draw the fields.
    if (wasUnread) this.draw();
  }

  #chosen(path, value) {
    this.#app.change(state => value === '' ? this.#withoutKey(state, path) : withEdit(state, { path, value }), { since: performance.now() });
  }

  #withoutKey(state, path) { return this.#fieldAt(path).isWritten ? withEdit(state, { path, remove: true }) : withoutEdits(state, path); }
  #fieldAt(path) { return this.#app.start.fields.find(one => one.path === path); }

  // An emptied field takes its key out of the scenario; a text that is no number stays, with what is wrong with it.
  #left(input) {
    if (input instanceof HTMLSelectElement) return;
    const { path } = input.dataset;
    this.#gesture = Symbol();
    if (input.value.trim() === '') this.#unread.delete(path);
    if (input.value.trim() === '' && this.#valueOf(this.#fieldAt(path)) !== undefined) this.#app.change(state => this.#withoutKey(state, path));
    else this.draw();
  }

  #step(event) {
    const { path } = event.target.dataset;
    const direction = event.target instanceof HTMLSelectElement ? 0 : { ArrowUp: 1, ArrowDown: -1 }[event.key];
    if (direction) this.#app.drawNow();
    const now = Number(event.target.value);
    if (!direction || event.target.value === '' || !Number.isFinite(now)) return;
    event.preventDefault();
    if (!event.repeat) this.#gesture = Symbol();
    // A unit of the second digit, as a hand would try it.
    const size = 10 ** (Math.floor(Math.log10(Math.abs(now) || 1)) - 1) * (event.shiftKey ? 10 : event.altKey ? 0.1 : 1);
    const value = Number((now + direction * size).toPrecision(10));
    this.#app.change(state => withEdit(state, { path, value }), { gesture: this.#gesture, since: event.timeStamp });
  }

  #explain(path) {
    const field = this.#fieldAt(path);
    if (!field) return;
    this.#gesture = Symbol();
    this.#before = this.#app.session.state.edits.find(edit => edit.path === path) ?? null;
    byId('about').replaceChildren(element('strong', {}, field.label), element('p', {}, about(field)), element('p', { class: 'path' }, field.path));
  }
}

const textOf = field => `${field.label} ${field.group} ${field.path} ${field.explanation ?? ''}`.toLowerCase();

function about(field) {
  const { above, atLeast, below, atMost } = field.limits ?? {};
  const limits = [
    above !== undefined && `above ${above}`, atLeast !== undefined && `at least ${atLeast}`,
    below !== undefined && `below ${below}`, atMost !== undefined && `at most ${atMost}`,
  ].filter(Boolean).join(' and ');
  const unit = field.unit ? ` ${field.unit}` : '';
  const sentences = [field.explanation && sentence(field.explanation), limits && `${sentence(`${limits}${unit}`)}`, field.value !== null && field.value !== undefined && `${field.isWritten ? 'In the file' : 'Where the file says nothing'}: ${field.value}${unit}.`];
  return sentences.filter(Boolean).join(' ');
}

const sentence = text => `${text[0].toUpperCase()}${text.slice(1)}${/[.!?]$/.test(text) ? '' : '.'}`;
