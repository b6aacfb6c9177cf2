// What the toolbar asks before it acts: a name for a layout, a file name, a figure.

import { byId, element, setText } from './elements.js';
import { freeName } from './kept.js';
import * as picture from './picture.js';
import * as server from './server.js';

export class Dialogs {
  #app;

  constructor(app) {
    this.#app = app;
    this.#keep();
    this.#save();
    this.#picture();
    for (const dialog of document.querySelectorAll('dialog')) dialog.querySelector('[value=cancel]').addEventListener('click', () => dialog.close());
  }

  #keep() {
    const [dialog, name, message] = [byId('keepDialog'), byId('keepName'), byId('keepMessage')];
    open('keep', dialog, () => {
      name.value = freeName(this.#app.selectedLayout().name, this.#app.layouts().map(layout => layout.name));
      setText(message, '');
    });
    onSubmit(dialog, () => {
      const wanted = name.value.trim();
      const isTaken = this.#app.layouts().some(layout => layout.name.toLowerCase() === wanted.toLowerCase());
      if (wanted === '' || isTaken) return setText(message, wanted === '' ? 'Give the layout a name.' : `There is a layout “${wanted}” already. Give it another name.`);
      dialog.close();
      this.#app.keep(wanted);
    });
  }

  #save() {
    const [dialog, name, message, button] = [byId('saveDialog'), byId('saveName'), byId('saveMessage'), byId('saveButton')];
    let replaces = null; // the file that the engineer was asked about
    const ask = () => { replaces = null; setText(button, 'Save'); };
    name.addEventListener('input', () => { ask(); setText(message, ''); });
    open('save', dialog, () => {
      name.value ||= this.#app.start.file.replace(/(\.json)?$/, '-2.json');
      setText(message, '');
      ask();
    });
    onSubmit(dialog, async () => {
      const file = name.value.trim();
      button.disabled = true;
      try {
        const answer = await server.save({ state: this.#app.session.state, name: file, overwrite: file === replaces });
        if (answer.saved) {
          dialog.close();
          this.#app.say(`Saved: ${[answer.saved, ...(answer.files ?? [])].join(', ')}.`);
          return;
        }
        setText(message, [answer.refused, ...(answer.faults ?? []).map(fault => fault.message)].join(' '));
        replaces = answer.exists ? file : null;
        setText(button, replaces ? `Replace ${file}` : 'Save');
      } catch (error) {
        setText(message, `It was not saved: ${error.message}`);
      } finally {
        button.disabled = false;
      }
    });
  }

  #picture() {
    const [dialog, figure, message] = [byId('pictureDialog'), byId('pictureFigure'), byId('pictureMessage')];
    open('picture', dialog, () => {
      setText(message, '');
      const figures = [...document.querySelectorAll('figure')].filter(shown => !shown.hidden);
      figure.replaceChildren(...figures.map(shown => element('option', { value: shown.id }, shown.getAttribute('aria-label'))));
    });
    onSubmit(dialog, async () => {
      try {
        // The curve is that of the selected layout's damper alone.
        const layouts = this.#app.shownLayouts().filter(layout => layout.isSelected || figure.value !== 'curve');
        await picture.save(figure.value, dialog.querySelector('[name=format]:checked').value, layouts, this.#app.start.file.replace(/\.json$/, ''));
        dialog.close();
      } catch (error) {
        setText(message, `The picture could not be made: ${error.message}`);
      }
    });
  }
}

function open(button, dialog, prepare) {
  byId(button).addEventListener('click', () => {
    prepare();
    dialog.showModal();
    dialog.querySelector('input:not([type])')?.select();
  });
}

function onSubmit(dialog, act) {
  dialog.querySelector('form').addEventListener('submit', event => {
    event.preventDefault();
    act();
  });
}
