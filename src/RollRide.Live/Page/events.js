// What the server tells of itself: that its files have changed, that it is there, and by its silence that it is not.

const silence_ms = 5000; // it is heard every two seconds

/**
 * Hears the server's events. The stream reconnects by itself, and is then told of a change that it missed.
 * @param {(word: 'changed'|'open'|'beat'|'error'|'silent') => void} tell
 */
export function hear(tell) {
  const events = new EventSource(new URL('../events', import.meta.url));
  let silence = 0;
  for (const word of ['changed', 'open', 'beat', 'error']) {
    events.addEventListener(word, () => {
      clearTimeout(silence);
      if (word !== 'error') silence = setTimeout(() => tell('silent'), silence_ms);
      tell(word);
    });
  }
}
