// Hears the server's events for all pages that are open on it: a stream holds a connection, and a browser has six to a server in all.

const pages = new Set();

// The stream reconnects by itself, and is then told of a change that it missed.
const events = new EventSource('../events');
for (const word of ['changed', 'open', 'error']) {
  events.addEventListener(word, () => {
    for (const page of pages) page.postMessage(word);
  });
}

addEventListener('connect', ({ ports: [page] }) => {
  page.onmessage = ({ data }) => data === 'here' ? pages.add(page) : pages.delete(page);
});
