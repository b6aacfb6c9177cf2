// The ends of a layout's dampers as the scenario places them: what is drawn, and the edits that move them.

const pointsOf = {
  mounts: [['axleEnd_mm', 'axle end'], ['bodyEnd_mm', 'body end']],
  onLinkage: [['partEnd_mm', 'linkage end'], ['bodyEnd_mm', 'body end']],
  arm: [['armMount_mm', 'arm end'], ['bodyMount_mm', 'body end']],
};

const sketchedLength_mm = 450;

/** Tenths of a millimetre, the finest that a mount is moved. */
const rounded = value => Math.round(value * 10) / 10;

/**
 * The dampers of a layout: one entry for both sides where they are mirrored, two where each side has its own placement.
 * @returns {{sign: 1|-1, isMirrored: boolean, side: string, kind: string, base: string, placement: object, ends: object[]}[]}
 */
export function dampersOf(layout, index, answer, scene) {
  const left = layout.left?.placement ? 'left.placement' : 'placement';
  const right = layout.right?.placement ? 'right.placement' : 'placement';
  const one = (sign, key, isMirrored) => damperAt(layout, index, answer, scene, sign, key, isMirrored);
  return left === right ? [one(1, left, true)] : [one(1, left, false), one(-1, right, false)];
}

function damperAt(layout, index, answer, scene, sign, key, isMirrored) {
  const placement = key.split('.').reduce((node, name) => node?.[name], layout) ?? {};
  const base = `layouts[${index}].${key}`;
  const kind = Object.keys(placement)[0];
  const side = isMirrored ? '' : sign > 0 ? ', left' : ', right';
  const damper = { sign, isMirrored, side, kind, base, placement, ends: [] };
  if (kind === 'placed') damper.ends = placedEnds(base, answer?.mounts?.[sign > 0 ? 'left' : 'right']);
  else if (kind === 'motionRatios') damper.ends = sketchedEnds(placement[kind], scene);
  else if (kind in pointsOf) damper.ends = pointsOf[kind].map(([name, label]) => writtenEnd(`${base}.${kind}.${name}`, label, placement[kind]?.[name]));
  damper.ends = damper.ends.filter(end => end.at.every(Number.isFinite));
  return damper;
}

// A point as written: x, y, z; or y, z alone, which stand in the rear view only.
function writtenEnd(path, label, written) {
  const values = Array.isArray(written) ? written : [NaN];
  const first = values.length === 2 ? 1 : 0;
  return {
    key: path,
    label,
    isFlat: first === 1,
    at: first === 1 ? [0, ...values] : values,
    moveTo: to => to.flatMap((value, axis) => value === null || axis < first ? [] : [{ path: `${path}[${axis - first}]`, value: rounded(value) }]),
  };
}

// A damper given by its ratios is sketched upright where it would have them, as in the report's rear view.
function sketchedEnds({ heave, roll }, scene) {
  if (!scene?.hasAxle || !(heave > 0)) return [];
  const y = scene.halfTrack_mm * roll / heave;
  return [scene.hubHeight_mm, scene.hubHeight_mm + sketchedLength_mm].map(z => ({ isFlat: true, at: [0, y, z], moveTo: null }));
}

// A damper taken from a fitting band has no mounts in the text: moving one end writes both.
function placedEnds(base, mounts) {
  if (!mounts) return [];
  return pointsOf.mounts.map(([name, label]) => ({
    key: `${base}.mounts.${name}`,
    label,
    isFlat: false,
    at: mounts[name],
    moveTo: to => [{
      path: base,
      value: { mounts: { axleEnd_mm: mounts.axleEnd_mm, bodyEnd_mm: mounts.bodyEnd_mm, [name]: mounts[name].map((value, axis) => to[axis] === null ? value : rounded(to[axis])) } },
    }],
  }));
}
