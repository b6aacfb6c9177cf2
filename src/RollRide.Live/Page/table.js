// The numbers of every shown layout, one row per quantity and one column per layout, with the targets and what the file gave.

import { byId, element, setText } from './elements.js';
import { glyph } from './glyph.js';

export class Table {
  #app;
  #shape = '';
  #cells = new Map();
  #written = new Map(); // by column, the rows that stand in its cells

  constructor(app) { this.#app = app; }

  inputs() { return [...this.#app.answerInputs()]; }

  draw() {
    const layouts = this.#app.shownLayouts().filter(layout => layout.answer?.rows);
    const rows = withoutTwice(layouts[0]?.answer.rows ?? []);
    // A layout kept here is in no file.
    const given = (this.#app.isSelectedChanged() && this.#app.givenAnswer()) || null;
    // Cells are only rewritten while the table keeps its shape.
    const shape = JSON.stringify([rows.map(row => [row.key, row.label, row.unit, row.target]), layouts.map(layout => [layout.name, layout.style, layout.isSelected]), given !== null]);
    if (shape !== this.#shape) this.#build(rows, layouts, given !== null);
    this.#shape = shape;
    for (const { name, answer } of layouts) this.#writeColumn(`/${name}`, answer.rows);
    if (given?.rows) this.#writeColumn('', given.rows);
  }

  #build(rows, layouts, hasGiven) {
    const selected = layouts.find(layout => layout.isSelected);
    this.#cells.clear();
    this.#written.clear();
    byId('columns').closest('table').classList.toggle('wide', layouts.length + (hasGiven ? 1 : 0) > 3);
    byId('columns').replaceChildren(
      element('th', { scope: 'col' }, 'Quantity'),
      ...(hasGiven ? [element('th', { scope: 'col', class: 'asGiven' }, 'as in the file')] : []),
      ...layouts.map(layout => element('th', { scope: 'col', class: layout === selected ? 'selected' : null }, glyph(layout.style), element('span', {}, layout.name))));
    byId('rows').replaceChildren(...grouped(rows).flatMap(({ heading, members }) => [
      ...(heading ? [element('tr', { class: 'heading' }, element('th', { scope: 'colgroup', colspan: layouts.length + (hasGiven ? 2 : 1) }, heading))] : []),
      ...members.map(({ row, label }) => this.#row(row, label, layouts, selected, hasGiven)),
    ]));
  }

  #row(row, label, layouts, selected, hasGiven) {
    const cell = (column, className) => {
      const made = element('td', { class: className, 'data-key': row.key, 'data-layout': column });
      this.#cells.set(className === 'asGiven' ? row.key : `${row.key}/${column}`, made);
      return made;
    };
    return element('tr', {},
      element('th', { scope: 'row', title: row.explanation }, label, ...(row.unit ? [element('small', {}, ` ${row.unit}`)] : []), ...(row.target ? [element('small', { class: 'wanted' }, ` ${wanted(row.target)}`)] : [])),
      ...(hasGiven ? [cell('given', 'asGiven')] : []),
      ...layouts.map(layout => cell(layout.name, layout === selected ? 'selected' : null)));
  }

  #writeColumn(column, rows) {
    if (this.#written.get(column) === rows) return;
    for (const row of rows) this.#write(row.key + column, row);
    this.#written.set(column, rows);
  }

  #write(key, row) {
    const cell = this.#cells.get(key);
    if (!cell) return;
    const isJudged = typeof row.isMet === 'boolean';
    setText(cell, isJudged && !row.isMet ? `✗ ${row.text}` : row.text);
    cell.classList.toggle('met', isJudged && row.isMet);
    cell.classList.toggle('missed', isJudged && !row.isMet);
    cell.dataset.value = row.value;
  }
}

const ofMode = /^(Heave|Roll|Hop|Tramp), (.+)$/;

// The damping ratio at the targets' velocity stands once where that is the reference velocity too.
function withoutTwice(rows) {
  const labelled = rows.map(row => row.target ? { ...row, label: row.label.replace("the targets' ", '') } : row);
  const twin = row => labelled.find(other => other.target && other.label === row.label);
  return labelled.map(row => twin(row) ?? row).filter((row, i, all) => all.indexOf(row) === i);
}

// Rows of the modes ("Heave, damping ratio at 0.13 m/s", "Roll, damping ratio at 0.13 m/s", …) come under one heading.
function grouped(rows) {
  const groups = [];
  for (const row of rows) {
    const [, mode, quantity] = row.label.match(ofMode) ?? [];
    const group = quantity && groups.find(other => other.quantity === quantity);
    if (group) group.members.push({ row, label: mode });
    else {
      // What follows the modes is of the run.
      const heading = quantity ? quantity[0].toUpperCase() + quantity.slice(1) : groups.at(-1)?.quantity && 'In the run';
      groups.push({ quantity, heading, members: [{ row, label: mode ?? row.label }] });
    }
  }
  return groups;
}

function wanted({ atLeast, atMost }) {
  if (Number.isFinite(atLeast) && Number.isFinite(atMost)) return `${atLeast} to ${atMost}`;
  return Number.isFinite(atLeast) ? `≥ ${atLeast}` : `≤ ${atMost}`;
}
