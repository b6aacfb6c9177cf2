// Layouts that the engineer keeps: appended to the scenario's own under a name, with a damper of their own where the valving differs.

import { edited, isWithin, member, steps } from './paths.js';
import { withEdit, withoutEdits, withoutEditsBelow } from './session.js';

/** A name that no other thing of the same kind has. */
export function freeName(wanted, taken, between = ' ') {
  const names = new Set([...taken].map(name => name.toLowerCase()));
  if (!names.has(wanted.toLowerCase())) return wanted;
  for (let i = 2; ; i++) if (!names.has(`${wanted}${between}${i}`.toLowerCase())) return `${wanted}${between}${i}`;
}

/** A file name that none of these has: valve.csv, valve-2.csv, … */
export function freeFileName(wanted, taken) {
  const stem = name => name.replace(/\.csv$/i, '');
  return `${freeName(stem(wanted), taken.map(stem), '-')}.csv`;
}

/**
 * Keeps the layout at an index as it now is under a name of its own, and gives the layout itself back what it was before.
 * @param {object} inFile the scenario as the file has it
 */
export function keep(state, inFile, index, name) {
  const now = edited(inFile, state.edits);
  const copy = { ...now.layouts[index], name };
  let next = withoutEditsBelow(state, `layouts[${index}]`);
  const damper = member('dampers', copy.damper);
  if (copy.damper in inFile.dampers && state.edits.some(edit => isWithin(edit.path, damper))) {
    const own = freeName(`${copy.damper}, ${name}`, Object.keys(now.dampers));
    next = withEdit(withoutEdits(next, damper), { path: member('dampers', own), value: now.dampers[copy.damper] });
    copy.damper = own;
  }
  return withEdit(next, { path: `layouts[${now.layouts.length}]`, value: copy });
}

/** Takes a kept layout out again, with a damper that it alone had; those behind it move up. */
export function withoutKept(state, inFile, index) {
  const next = shifted(withoutEdits(state, `layouts[${index}]`), index, -1);
  const used = JSON.stringify(edited(inFile, next.edits).layouts);
  const isUnused = ([list, name]) => list === 'dampers' && !(name in inFile.dampers) && !used.includes(JSON.stringify(name));
  return { ...next, edits: next.edits.filter(edit => !isUnused(steps(edit.path))) };
}

/**
 * A state whose edits follow their layouts, by name, to where a file that was changed has them, and go with those that it has no longer; those
 * kept here stand behind the file's own.
 * @param {object[]} before the layouts as the file had them
 * @param {object[]} now as it has them
 */
export function rebased(state, before, now) {
  const names = before.map(layout => layout.name);
  for (const edit of state.edits) {
    const [list, index, ...below] = steps(edit.path);
    if (list === 'layouts' && index >= before.length && below.length === 0) names[index] = edit.value.name;
  }
  const inFile = name => now.findIndex(layout => layout.name === name);
  const behind = names.slice(before.length).filter(name => inFile(name) < 0);
  const placeOf = index => {
    const found = inFile(names[index]);
    if (found >= 0) return found;
    return index < before.length ? null : now.length + behind.indexOf(names[index]);
  };
  return moved(state, placeOf);
}

/**
 * Layouts as a file had them, by the names that it has for them now: one at the same place with the same content under a name that is new was renamed.
 * @param {object[]} before the layouts as the file had them
 * @param {object[]} now as it has them
 */
export function renamed(before, now) {
  const has = (layouts, name) => layouts.some(layout => layout.name === name);
  const content = layout => JSON.stringify({ ...layout, name: null });
  return before.map((layout, index) => {
    const other = now[index];
    return other && !has(now, layout.name) && !has(before, other.name) && content(other) === content(layout) ? other : layout;
  });
}

/** The names of layouts with edits that the file has no longer. */
export function lostLayouts(state, before, now) {
  const changed = new Set(state.edits.map(edit => steps(edit.path)).filter(([list]) => list === 'layouts').map(([, index]) => index));
  return before.filter((layout, index) => changed.has(index) && !now.some(other => other.name === layout.name)).map(layout => layout.name);
}

// A state whose edits on layouts from an index on stand so many places further.
const shifted = (state, from, by) => moved(state, index => index >= from ? index + by : index);

function moved(state, placeOf) {
  return { ...state, edits: state.edits.flatMap(edit => {
    const [list, index] = steps(edit.path);
    const place = list === 'layouts' && index !== undefined ? placeOf(index) : index;
    if (place === null) return [];
    return place === index ? edit : { ...edit, path: edit.path.replace(/^layouts\[\d+\]/, `layouts[${place}]`) };
  }) };
}
