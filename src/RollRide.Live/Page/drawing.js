// The axle seen from behind and from the left, to one scale and with one height axis: the dampers' ends are dragged here.

import { Figure } from './chart.js';
import { Handles } from './handles.js';
import { dampersOf } from './mounts.js';
import { withEdits } from './session.js';
import { line, marker, node, number, scale, ticks } from './svg.js';

const margin = { left: 40, right: 12, top: 26, bottom: 40, between: 40 };
const letter_px = 6.3;
const usualDiameter_mm = 55; // of a damper whose envelope the scenario does not give

export class Drawing {
  #app;
  #figure;
  #ground;
  #back;
  #front;
  #handles;
  #drawnGround = []; // what the ground as it is drawn depends on
  #top = 0; // the height that the views reach to, kept while an end is dragged

  constructor(app) {
    this.#app = app;
    this.#figure = new Figure('drawing', () => app.redraw());
    hatch(this.#figure.svg);
    this.#ground = this.#figure.layer('ground');
    this.#back = this.#figure.layer('back');
    this.#front = this.#figure.layer('front');
    this.#handles = new Handles(this.#figure.svg, app);
  }

  draw() {
    const { scene } = this.#app;
    if (!this.#figure.isVisible || !scene) return;
    const shown = this.#app.shownLayouts().map(layout => ({ ...layout, dampers: dampersOf(layout.drawn, layout.index, layout.answer, scene) }));
    const views = this.#views(shown);
    const inputs = [scene, this.#app.bands, this.#figure.size, this.#top];
    if (inputs.some((input, i) => input !== this.#drawnGround[i])) this.#drawGround(views);
    this.#drawnGround = inputs;
    this.#drawDampers(views, shown);
  }

  // Both views: `across` takes millimetres along the view's own axis, to the left of the picture; `up` is shared.
  #views(shown) {
    const { scene } = this.#app;
    const half = Math.max(scene.halfTrack_mm, ...scene.tyres.flat().map(([y]) => Math.abs(y))) + 40;
    const heights = shown.flatMap(layout => layout.dampers).flatMap(damper => damper.ends).map(end => end.at[2]);
    if (!this.#handles.isHeld) this.#top = Math.max(scene.cgHeight_mm, ...heights, ...scene.keepOuts.flatMap(room => room.polygon).map(([, z]) => z)) + 90;
    const top = this.#top;
    const [width, height] = [this.#figure.width - margin.left - margin.right - margin.between, this.#figure.height - margin.top - margin.bottom];
    const tyreRadius = scene.hubHeight_mm;
    const perMillimetre = Math.min(height / (top + 10), width / (2 * half + 2 * tyreRadius + 100));
    const rearWidth = Math.max(2 * half * perMillimetre, width - height * 1.25);
    const middle = margin.left + rearWidth / 2;
    const sideLeft = margin.left + rearWidth + margin.between;
    const sideMiddle = (sideLeft + this.#figure.width - margin.right) / 2;
    const road = this.#figure.height - margin.bottom;
    return {
      up: scale(0, top, road, road - top * perMillimetre),
      rear: { axis: 1, middle, left: margin.left, right: margin.left + rearWidth, across: scale(-half, half, middle + half * perMillimetre, middle - half * perMillimetre) },
      side: { axis: 0, middle: sideMiddle, left: sideLeft, right: this.#figure.width - margin.right, across: scale(-1000, 1000, sideMiddle + 1000 * perMillimetre, sideMiddle - 1000 * perMillimetre) },
      perMillimetre,
      tyreRadius,
      road,
    };
  }

  #drawGround({ up, rear, side, perMillimetre, tyreRadius, road }) {
    const layer = this.#ground;
    const { scene } = this.#app;
    layer.begin();
    layer.put('rt', 'text', { class: 'title', x: 10, y: 17 }, 'Seen from behind');
    layer.put('st', 'text', { class: 'title', x: side.left, y: 17 }, 'Seen from the left');
    for (const view of [rear, side]) layer.put(`road${view.axis}`, 'path', { class: 'road', d: `M${view.left} ${road}H${view.right}` });
    for (const tick of ticks(0, up.to, 5)) {
      layer.put(`z${tick.text}`, 'path', { class: 'grid', d: `M${rear.left} ${up(tick.value).toFixed(1)}H${rear.right}M${side.left} ${up(tick.value).toFixed(1)}H${side.right}` });
      layer.put(`zt${tick.text}`, 'text', { class: 'tick end', x: rear.left - 5, y: up(tick.value) + 4 }, tick.text);
    }

    // The body is a sketch, as in the report's rear view.
    const floor = up(scene.hubHeight_mm + (scene.cgHeight_mm - scene.hubHeight_mm) * 0.45);
    const wide = 0.4 * scene.track_mm * perMillimetre;
    layer.put('body', 'rect', { class: 'body', x: rear.middle - wide, y: up(up.to), width: 2 * wide, height: floor - up(up.to) });
    layer.put('wheel', 'circle', { class: 'tyre', cx: side.middle, cy: up(tyreRadius), r: tyreRadius * perMillimetre });
    layer.put('hub', 'circle', { class: 'hub', cx: side.middle, cy: up(scene.hubHeight_mm), r: 5 });
    if (scene.hasAxle) layer.put('axle', 'path', { class: 'axle', d: `M${rear.across(scene.halfTrack_mm)} ${up(scene.hubHeight_mm)}H${rear.across(-scene.halfTrack_mm)}` });
    for (const [i, { on, polygon }] of scene.keepOuts.entries()) {
      for (const sign of [1, -1]) layer.put(`room${i} ${sign}`, 'path', { class: `room ${on === 'axle' ? 'onAxle' : 'onBody'}`, d: line(polygon.map(([y, z]) => [rear.across(sign * y), up(z)]), true) });
    }
    for (const sign of [1, -1])
      scene.tyres.forEach((tyre, i) => layer.put(`tyre${sign}${i}`, 'path', { class: 'tyre', d: line(tyre.map(([y, z]) => [rear.across(sign * y), up(z)]), true) }));
    for (const [i, { name, on, polygon }] of scene.keepOuts.entries()) nameRoom(layer, `room${i}`, name, polygon.map(([y, z]) => [rear.across(-y), Math.min(road, up(z))]), on === 'body');
    layer.put('centre', 'path', { class: 'centre', d: `M${rear.middle} ${up(up.to)}V${road}` });
    point(layer, 'cg', rear.middle, up(scene.cgHeight_mm), 'centre of gravity');
    point(layer, 'rc', rear.middle, up(scene.rollCentreHeight_mm), 'roll centre');
    this.#drawRuler(rear, road);
    layer.put('forward', 'text', { class: 'axis middle', x: side.middle, y: this.#figure.height - 6 }, '← forward, x, mm from the axle');
    const reach = (side.right - side.left) / 2 / perMillimetre;
    for (const tick of ticks(-reach, reach, 4)) layer.put(`x${tick.text}`, 'text', { class: 'tick middle', x: side.across(tick.value), y: road + 17 }, tick.text);
    layer.end();
  }

  #drawRuler(rear, road) {
    const layer = this.#ground;
    for (const tick of ticks(rear.across.from, rear.across.to, 8)) layer.put(`y${tick.text}`, 'text', { class: 'tick middle', x: rear.across(tick.value), y: road + 17 }, tick.text);
    const { bands } = this.#app;
    layer.put('across', 'text', { class: 'axis middle', x: rear.middle, y: this.#figure.height - 6 }, bands ? '← left, y, mm from the centre plane; thick: the axle end fits' : '← left, y, mm from the centre plane');
    (bands ?? []).forEach(([from, to], i) => {
      for (const sign of [1, -1])
        layer.put(`band${i}${sign}`, 'path', { class: 'fits', d: `M${rear.across(sign * from).toFixed(1)} ${road + 3}H${rear.across(sign * to).toFixed(1)}` });
    });
  }

  #drawDampers({ up, rear, side }, shown) {
    this.#back.begin();
    this.#front.begin();
    for (const layout of shown) {
      for (const damper of layout.dampers) {
        if (damper.ends.length < 2) continue;
        placesOf(damper, rear, side).forEach(([view, sign], i) => {
          const ends = damper.ends.map(end => [view.across(sign * end.at[view.axis]), up(end.at[2])]);
          const key = `${layout.index}${damper.side}${i}`;
          if (layout.isSelected) this.#drawSelected(key, layout, damper, ends, view, sign, up);
          else this.#drawOther(key, layout, ends);
        });
      }
    }
    this.#drawGiven({ up, rear, side });
    this.#back.end();
    this.#front.end();
    this.#drawHandles({ up, rear, side });
  }

  // Where the hand has them: the damper follows with the answer, and stands where it is said to fit or not.
  #drawHandles({ up, rear, side }) {
    const selected = this.#app.selectedLayout();
    const dampers = selected ? dampersOf(selected.written, selected.index, selected.answer, this.#app.scene) : [];
    this.#handles.draw(dampers.filter(damper => damper.ends.length === 2).flatMap(damper => placesOf(damper, rear, side).filter((_, i) => !damper.isMirrored || i !== 1)
      .flatMap(([view, sign]) => damper.ends.filter(end => end.moveTo).map(end => handle(view, sign, up, selected, damper, end)))));
  }

  // Where the file has the dampers that are moved.
  #drawGiven({ up, rear, side }) {
    const selected = this.#app.selectedLayout();
    const written = this.#app.start.document.layouts[selected?.index];
    if (!written || selected.isKept || !this.#app.isSelectedChanged()) return;
    for (const damper of dampersOf(written, selected.index, this.#app.givenAnswer(), this.#app.scene)) {
      placesOf(damper, rear, side).forEach(([view, sign], i) =>
        this.#back.put(`given${damper.side}${i}`, 'path', { class: 'given wide', d: line(damper.ends.map(end => [view.across(sign * end.at[view.axis]), up(end.at[2])])) }));
    }
  }

  #drawOther(key, layout, ends) {
    this.#back.put(key, 'path', { class: `line s${layout.style}`, d: line(ends) });
    ends.forEach(([x, y], i) => this.#back.put(`${key}m${i}`, 'path', { class: `mark s${layout.style}`, d: marker(layout.style, x, y, 4) }));
  }

  #drawSelected(key, layout, damper, ends, view, sign, up) {
    const isInTheWay = layout.answer?.place?.isChecked && !layout.answer.place.fits;
    const outline = view.axis === 1 && layout.answer?.outline?.[sign > 0 ? 'left' : 'right'];
    const room = outline
      ? outline.map(part => line(part.map(([y, z]) => [view.across(sign * Math.abs(y)), up(z)]), true))
      : [tube(ends, usualDiameter_mm * (up(0) - up(1)))];
    room.forEach((d, i) => this.#front.put(`${key}t${i}`, 'path', { class: `tube s${layout.style}${isInTheWay ? ' inTheWay' : ''}`, d }));
    this.#front.put(key, 'path', { class: `line selected s${layout.style}`, d: line(ends) });
    ends.forEach(([x, y], i) => this.#front.put(`${key}m${i}`, 'path', { class: `mark s${layout.style}`, d: marker(layout.style, x, y, 4.5) }));
  }
}

// The views in which a damper is drawn, each with the side of the axle: a mirrored one on both sides, a flat one not from the left.
const placesOf = ({ sign, isMirrored, ends }, rear, side) =>
  [[rear, sign], ...(isMirrored ? [[rear, -sign]] : []), ...(ends[0]?.isFlat || sign < 0 ? [] : [[side, 1]])];

/** A tube of a diameter between two points. */
function tube([from, to], diameter) {
  const whole = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
  const [across, along] = [(to[1] - from[1]) / whole * diameter / 2, (to[0] - from[0]) / whole * diameter / 2];
  return line([[from[0] - across, from[1] + along], [to[0] - across, to[1] + along], [to[0] + across, to[1] - along], [from[0] + across, from[1] - along]], true);
}

function handle(view, sign, up, layout, damper, end) {
  const names = ['x', 'y', 'z'];
  const to = (across, height) => [0, 1, 2].map(axis => axis === view.axis ? across : axis === 2 ? height : null);
  const move = place => state => withEdits(state, end.moveTo(place));
  const round = (value, isFine) => isFine ? value : Math.round(value);
  const text = `${names[view.axis]} ${number(end.at[view.axis], 1)} mm, z ${number(end.at[2], 1)} mm`;
  return {
    key: `${end.key}${view.axis}`,
    x: view.across(sign * end.at[view.axis]),
    y: up(end.at[2]),
    label: `${layout.name}${damper.side}: ${end.label}, seen from ${view.axis === 1 ? 'behind' : 'the left'}`,
    text,
    now: end.at[view.axis],
    least: -10000,
    most: 10000,
    kind: `s${layout.style}`,
    radius: 7,
    drag: (x, y, isFine) => move(to(round(sign * view.across.back(x), isFine), round(up.back(y), isFine))),
    // The picture's left is the axis' positive direction, on the right side of the axle the other way about.
    nudge: (right, down, steps) => move(to(end.at[view.axis] - right * sign * steps, end.at[2] - down * steps)),
  };
}

// Within the room where there is space for its name, else above or below it.
function nameRoom(layer, key, name, corners, isAbove) {
  const [xs, ys] = [corners.map(([x]) => x), corners.map(([, y]) => y)];
  const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const isWithin = right - left > letter_px * name.length && bottom - top > 16;
  layer.put(`${key} name`, 'text', { class: 'note middle', x: (left + right) / 2, y: isWithin ? bottom - 6 : isAbove ? top - 4 : bottom + 11 }, name);
}

function point(layer, key, x, y, name) {
  layer.put(key, 'path', { class: 'point', d: `M${x - 5} ${y}H${x + 5}M${x} ${y - 5}V${y + 5}` });
  layer.put(`${key}t`, 'text', { class: 'note end', x: x - 8, y: y + 4 }, name);
}

// Where a damper cannot stand it is hatched, so that it is not told by colour alone.
function hatch(svg) {
  const pattern = node('pattern', { id: 'hatch', width: 6, height: 6, patternUnits: 'userSpaceOnUse', patternTransform: 'rotate(45)' }, node('defs', {}, svg));
  node('rect', { class: 'hatchGround', width: 6, height: 6 }, pattern);
  node('path', { class: 'hatchLine', d: 'M1 0V6' }, pattern);
}
