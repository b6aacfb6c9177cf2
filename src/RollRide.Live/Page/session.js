// The page's own state: the edits on the scenario's text, with the whole session's history. The server keeps none of it.

import { isWithin, valueAt } from './paths.js';

/** @typedef {{path: string, value?: any, remove?: true}} Edit */
/** @typedef {{edits: readonly Edit[], files: readonly {name: string, from: string, rows: number[][]}[]}} State */

/** @type {State} */
export const asInTheFile = Object.freeze({ edits: [], files: [] });

/** A state with one more edit. What stood at its path or below is replaced, so that a drag does not lengthen the list. */
export function withEdit(state, edit) {
  const place = state.edits.findIndex(other => other.path === edit.path);
  const edits = state.edits.filter((other, i) => i === place || !isWithin(other.path, edit.path));
  if (place < 0) edits.push(edit);
  else edits[edits.findIndex(other => other.path === edit.path)] = edit;
  return { ...state, edits };
}

/** A state with more edits, in order. */
export const withEdits = (state, edits) => edits.reduce(withEdit, state);

/** A state without the edits at a path or below. */
export function withoutEdits(state, path) {
  return { ...state, edits: state.edits.filter(edit => !isWithin(edit.path, path)) };
}

/** A state without the edits below a path; one of the value at the path itself stays. */
export function withoutEditsBelow(state, path) {
  return { ...state, edits: state.edits.filter(edit => edit.path === path || !isWithin(edit.path, path)) };
}

/** A state without the edits that write what the file says anyway. */
export function withoutIdle(state, inFile) {
  const isIdle = edit => !edit.remove && isSame(edit.value, valueAt(inFile, edit.path)) && !state.edits.some(other => other !== edit && isWithin(edit.path, other.path));
  return state.edits.some(isIdle) ? { ...state, edits: state.edits.filter(edit => !isIdle(edit)) } : state;
}

const isSame = (one, other) => one === other || (typeof one === 'object' && JSON.stringify(one) === JSON.stringify(other));

/** A state with the rows of a new data file. */
export function withFile(state, file) {
  return { ...state, files: [...state.files.filter(other => other.name !== file.name), file] };
}

/** A state whose data file has another name. */
export function withRenamedFile(state, name, other) {
  return {
    edits: state.edits.map(edit => JSON.stringify(edit.value)?.includes(JSON.stringify(name)) ? { ...edit, value: renamed(edit.value, name, other) } : edit),
    files: state.files.map(file => file.name === name ? { ...file, name: other } : file),
  };
}

// The name stands in an edit of a damper's file, or within a damper or layout that was kept.
function renamed(value, name, other) {
  if (value === name) return other;
  if (Array.isArray(value)) return value.map(item => renamed(item, name, other));
  return value && typeof value === 'object' ? Object.fromEntries(Object.entries(value).map(([key, item]) => [key, renamed(item, name, other)])) : value;
}

export class Session {
  #past = [];
  #future = [];
  #gesture = null;
  state = asInTheFile;

  get canUndo() { return this.#past.length > 0; }
  get canRedo() { return this.#future.length > 0; }
  get isChanged() { return this.state.edits.length > 0; }

  /** Takes the next state. Changes of one gesture (a drag, a held key) are undone together. */
  change(state, gesture = Symbol()) {
    if (gesture !== this.#gesture) this.#past.push(this.state);
    this.#gesture = gesture;
    this.#future = [];
    this.state = withoutUnusedFiles(state);
  }

  undo() { this.#travel(this.#past, this.#future); }
  redo() { this.#travel(this.#future, this.#past); }

  /** Rewrites every state, where the file under it has changed so that edits stand elsewhere. */
  rewrite(change) {
    const next = state => withoutUnusedFiles(change(state));
    this.state = next(this.state);
    this.#past = this.#past.map(next);
    this.#future = this.#future.map(next);
  }

  #travel(from, to) {
    if (from.length === 0) return;
    to.push(this.state);
    this.state = from.pop();
    this.#gesture = null;
  }
}

function withoutUnusedFiles(state) {
  if (state.files.length === 0) return state;
  const edits = JSON.stringify(state.edits);
  return { ...state, files: state.files.filter(file => edits.includes(JSON.stringify(file.name))) };
}
