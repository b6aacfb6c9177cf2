// The page begins here: its state and its screen, and the server's word that a file has changed.

import { App } from './app.js';
import { Screen } from './screen.js';

const app = new App(() => screen.redraw(), () => screen.drawNow());
const screen = new Screen(app);

// The stream reconnects by itself, and is then told of a change that it missed.
const events = new EventSource('events');
events.addEventListener('changed', () => app.open());
events.addEventListener('open', () => app.found());
events.addEventListener('error', () => app.lost());
app.open();

/** For a benchmark: counts, and times from a move of the hand to the painted answer. */
window.rollride = {
  app,
  get counts() {
    const { answer, window, verdict } = app.requests;
    return { ...app.measure.counts, sent: answer.sent, dropped: answer.dropped, windows: window.sent, verdicts: verdict.sent };
  },
  get times() { return app.measure.times; },
};
