// What has been changed against the file, for the printed page.

import { byId, setItems } from './elements.js';
import { valueAt } from './paths.js';

const longest = 60;

export function list(app) {
  const inFile = app.start?.document ?? {};
  const short = value => {
    const text = value === undefined ? 'not given' : JSON.stringify(value);
    return text.length > longest ? `${text.slice(0, longest)}…` : text;
  };
  setItems(byId('changes'), app.session.state.edits.map(edit => `${edit.path}: ${short(valueAt(inFile, edit.path))} → ${short(edit.value)}`));
}
