// Paths to values of the scenario, written as its reader writes them: layouts[0].placement, dampers["front left"].forceScale.

const plainKey = /^[\p{L}\p{Mn}\p{Nd}\p{Pc}$-]+$/u;

/** The path of a member of the object at a path. */
export function member(path, key) {
  if (!plainKey.test(key)) return `${path}["${key}"]`;
  return path === '' ? key : `${path}.${key}`;
}

const known = new Map();

/** The keys and indices along a path. */
export function steps(path) {
  if (!known.has(path)) known.set(path, Object.freeze(read(path)));
  return known.get(path);
}

function read(path) {
  const found = [];
  for (let i = 0; i < path.length;) {
    if (path[i] === '.') {
      i++;
    } else if (path.startsWith('["', i)) {
      // A name may hold the two characters that end it, but then something else follows them.
      let end = path.indexOf('"]', i + 2);
      while (end + 2 < path.length && path[end + 2] !== '.' && path[end + 2] !== '[') end = path.indexOf('"]', end + 1);
      found.push(path.slice(i + 2, end));
      i = end + 2;
    } else if (path[i] === '[') {
      const end = path.indexOf(']', i);
      found.push(Number(path.slice(i + 1, end)));
      i = end + 1;
    } else {
      const rest = path.slice(i).search(/[.[]/);
      const end = rest < 0 ? path.length : i + rest;
      found.push(path.slice(i, end));
      i = end;
    }
  }
  return found;
}

/** Whether a path is another one, or lies below it. */
export function isWithin(path, other) {
  return path === other || (path.startsWith(other) && (path[other.length] === '.' || path[other.length] === '['));
}

/** The value at a path, undefined where there is none. */
export function valueAt(document, path) {
  return steps(path).reduce((node, key) => node?.[key], document);
}

/** A document with edits applied in order; what no edit touches is shared with the one given. */
export function edited(document, edits) {
  return edits.reduce((node, edit) => withEdit(node, steps(edit.path), edit), document);
}

function withEdit(node, [key, ...rest], edit) {
  const copy = Array.isArray(node) ? [...node] : { ...node };
  if (rest.length > 0) copy[key] = withEdit(copy[key], rest, edit);
  else if (!edit.remove) copy[key] = edit.value;
  else if (Array.isArray(copy)) copy.splice(key, 1);
  else delete copy[key];
  return copy;
}
