"use strict";

// What the three views show, in mm on the paper of each (right and up): the same marks as in
// Kneeline's own drawings.  A mark has a key, a role that decides how it looks, and its points.

const ENDS = ["front", "rear"];
const PLATE_DEPTH = 34;
const TOES = [
  [0.44, 0.04, 34], [0.43, -0.09, 38], [0.3, 0.13, 52], [0.3, -0.13, 56],
  [0.06, 0.1, 92], [0.06, -0.1, 94],
];
const RING = Array.from({ length: 6 }, (_, i) => [cos((i * Math.PI) / 3), sin((i * Math.PI) / 3)]);

const sum = (start, direction, distance) => plus(start, scaled(direction, distance));
const outwards = (distance, step) => step * Math.ceil(distance / step - 1e-9);
const inBetween = (apex, first, second, radius, angle) =>
  plus(apex, plus(scaled(first, radius * cos(angle)), scaled(second, radius * sin(angle))));

function seenBy({ right, up }) {
  return (p) => [dot(right, p), dot(up, p)];
}

/** Corners of the convex hull, counter-clockwise. */
function hull(points) {
  const ordered = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const chain = (path) => {
    const kept = [];
    for (const p of path) {
      while (kept.length > 1) {
        const [a, b] = kept.slice(-2);
        if ((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]) > 0) break;
        kept.pop();
      }
      kept.push(p);
    }
    return kept.slice(0, -1);
  };
  return [...chain(ordered), ...chain([...ordered].reverse())];
}

/** Outline of a limb: the hull of a circle at each end. */
function tapered(start, end, startRadius, endRadius) {
  const [dx, dy] = [end[0] - start[0], end[1] - start[1]];
  const distance = Math.hypot(dx, dy);
  if (distance <= abs(startRadius - endRadius)) {
    const [centre, radius] = startRadius >= endRadius ? [start, startRadius] : [end, endRadius];
    return arc(centre, radius, 0, 2 * Math.PI * (1 - 1 / 24), 23);
  }
  const along = atan2(dy, dx), off = (startRadius - endRadius) / distance;
  const half = atan2(sqrt(1 - off * off), off);
  return [
    ...arc(start, startRadius, along + half, along + 2 * Math.PI - half, 7),
    ...arc(end, endRadius, along - half, along + half, 7),
  ];
}

function arc(centre, radius, start, end, steps) {
  return Array.from({ length: steps + 1 }, (_, i) => {
    const angle = start + (i * (end - start)) / steps;
    return [centre[0] + radius * cos(angle), centre[1] + radius * sin(angle)];
  });
}

/** A fan in space: the apex and an arc about it. */
function sector(apex, first, second, start, end, radius) {
  const steps = Math.max(2, Math.ceil(abs(end - start) / 0.06));
  const rim = Array.from({ length: steps + 1 }, (_, i) =>
    inBetween(apex, first, second, radius, start + (i * (end - start)) / steps),
  );
  return [apex, ...rim];
}

/** What the outline of a sole, in shares of its length, is used for. */
function shapeOf({ footprint, sole_length }) {
  const half = (points) => points.filter((_, i) => i % 2 === 0);
  const drawn = half(footprint);
  return { footprint, sole_length, corners: half(drawn), bulges: hull(drawn) };
}

/** Boot, mount and limb of one leg as simple solids in space. */
function figureOf(leg, shape) {
  const { own, ankle, foot, outward, normal } = leg.chain;
  const above = own.ankle_height_mm + own.sole_thickness_mm;
  const from = (origin) => (ahead, outer, up) =>
    plus(sum(origin, foot, ahead), plus(scaled(outward, outer), scaled(normal, up)));
  const atAnkle = from(ankle);
  const centre = atAnkle(leg.chain.setback, 0, -above);
  const point = from(centre);
  const length = shape.sole_length * own.foot_length_mm;
  const ring = (outline, size, up) => outline.map(([u, v]) => point(u * size, v * size, up));
  const under = ring(shape.corners, length, 0);
  const lowest = Math.min(...under.map((p) => p[2]));
  return {
    ...leg, centre, under, ring,
    plateRadius: 0.3 * length,
    plateTop: Math.max(lowest, 2 - PLATE_DEPTH),
    mount: wedgeUnder(point, 0.34 * length, 0.13 * length),
    sole: [...under, ...ring(shape.corners, length, own.sole_thickness_mm)],
    shell: shellOf(point, atAnkle, ring, length, own, shape),
    cuffBody: cuffOf(leg, own),
    shank: leg.chain.shank,
    thigh: leg.chain.thigh,
    along: leg.chain.along,
    inPlane: inBetween([0, 0, 0], leg.planeUp, leg.chain.along, 1, leg.bootFlex - leg.kneeFlexion),
  };
}

function wedgeUnder(point, halfLength, halfWidth) {
  const upper = [-1, 1].flatMap((u) => [-1, 1].map((v) => point(u * halfLength, v * halfWidth, 0)));
  const heights = upper.map((p) => p[2]);
  const level = Math.min(...heights);
  if (Math.max(...heights) - level < 0.5) return [];
  return [...upper, ...upper.map(([x, y]) => [x, y, level])];
}

function shellOf(point, atAnkle, ring, length, own, shape) {
  const base = own.sole_thickness_mm, scale = own.foot_length_mm / 255;
  const toes = TOES.map(([ahead, aside, height]) =>
    point(ahead * length, aside * length, base + height * scale),
  );
  const ankle = RING.map(([c, s]) => atAnkle(56 * c * scale, 42 * s * scale, 14 * scale));
  return [...ring(shape.bulges, 0.94 * length, base), ...toes, ...ankle];
}

function cuffOf({ chain, hingeAxis, shankAxis }, own) {
  const ahead = scaled(cross(shankAxis, hingeAxis), chain.side);
  const scale = own.foot_length_mm / 255;
  const top = 0.46 * (own.knee_height_mm - own.ankle_height_mm);
  const rings = [[55, 43, 4, -6], [63, 55, -3, top]];
  return rings.flatMap(([long, wide, shift, up]) =>
    RING.map(([c, s]) =>
      plus(
        sum(chain.ankle, ahead, long * c * scale + shift),
        plus(scaled(hingeAxis, wide * s * scale), scaled(shankAxis, up)),
      ),
    ),
  );
}

const line = (key, role, points) => ({ kind: "line", key, role, points });
const area = (key, role, points) => ({ kind: "area", key, role, points });
const dotAt = (key, role, at, radius) => ({ kind: "dot", key, role, at, radius });
const span = (key, start, end, out = [0, 0], level = 0) =>
  ({ kind: "span", key, role: "dimension", start, end, out, level });

function boardEdge(figures, seen) {
  const across = ENDS.flatMap((end) => figures[end].sole.map((p) => seen(p)[0]));
  const [left, right] = [Math.min(...across) - 40, Math.max(...across) + 40];
  const [top, bottom] = [-PLATE_DEPTH, -PLATE_DEPTH - 10];
  return area("board", "board", [[left, top], [right, top], [right, bottom], [left, bottom]]);
}

function footMarks(name, figure, seen) {
  const outline = (points) => hull(points.map(seen));
  const [x] = seen(figure.centre), radius = figure.plateRadius;
  const plate = [
    [x - radius, -PLATE_DEPTH], [x + radius, -PLATE_DEPTH],
    [x + radius, figure.plateTop], [x - radius, figure.plateTop],
  ];
  return [
    area(`${name}.plate`, "plate", plate),
    ...(figure.mount.length ? [area(`${name}.mount`, `${name}.mount`, outline(figure.mount))] : []),
    area(`${name}.shell`, `${name}.boot`, outline(figure.shell)),
    area(`${name}.sole`, `${name}.sole`, outline(figure.sole)),
  ];
}

function limbMarks(name, figure, seen, tone) {
  const [ankle, knee, hip] = [figure.chain.ankle, figure.knee, figure.hip].map(seen);
  const scale = figure.chain.own.hip_height_mm / 880, limb = `${name}.limb.${tone}`;
  return [
    area(`${name}.shank`, limb, tapered(ankle, knee, 31 * scale, 45 * scale)),
    area(`${name}.thigh`, limb, tapered(knee, hip, 46 * scale, 64 * scale)),
    area(`${name}.cuff`, `${name}.boot`, hull(figure.cuffBody.map(seen))),
  ];
}

function boneMarks(name, figure, seen, tone) {
  const [ankle, knee, hip] = [figure.chain.ankle, figure.knee, figure.hip].map(seen);
  return [
    line(`${name}.bones`, `${name}.bone.${tone}`, [ankle, knee, hip]),
    dotAt(`${name}.ankle`, `${name}.joint.${tone}`, ankle, 3.5),
    dotAt(`${name}.knee`, `${name}.joint.${tone}`, knee, 5.5),
  ];
}

function wedgeMarks(name, figure, state, seen) {
  const { knee, inPlane, hingeAxis, offPlane, thigh } = figure;
  const fan = sector(knee, inPlane, hingeAxis, 0, offPlane, thigh);
  const trace = [figure.chain.ankle, knee, sum(knee, inPlane, thigh + 46)];
  return [
    area(`${name}.wedge`, `wedge.${state}`, fan.map(seen)),
    line(`${name}.trace`, `trace.${state}`, trace.map(seen)),
  ];
}

function pelvisMarks(figures, seen) {
  const [rear, front] = [seen(figures.rear.hip), seen(figures.front.hip)];
  return [
    line("pelvis", "pelvis", [rear, front]),
    dotAt("rear.hip", "hip", rear, 6),
    dotAt("front.hip", "hip", front, 6),
  ];
}

const highestHip = (figures) =>
  Math.max(...ENDS.map((end) => {
    const { own } = figures[end].chain;
    return own.hip_height_mm + own.sole_thickness_mm;
  }));

function uprightWindow(figures, seen, least, reach) {
  const soles = ENDS.flatMap((end) => figures[end].sole.map((p) => abs(seen(p)[0])));
  const half = outwards(Math.max(Math.max(...soles, ...reach) + 30, least), 50);
  const top = outwards(highestHip(figures) + 55, 50);
  return { left: -half, bottom: -PLATE_DEPTH - 14, right: half, top };
}

/** The direction in which the hips face. */
const facingOf = (inputs) =>
  (0.5 * (inputs.front_angle_deg + inputs.rear_angle_deg) + inputs.hips_turned_deg) * RADIANS;

function fromTheFront({ inputs, figures, states, exists, hand }) {
  const facing = facingOf(inputs), [s, c] = [sin(facing), cos(facing)];
  const seen = seenBy({ right: [hand * c, -hand * s, 0], up: [0, 0, 1] });
  const nearness = (end) => dot([s, c, 0], figures[end].centre);
  const [far, near] = [...ENDS].sort((a, b) => nearness(a) - nearness(b));
  const tones = { [near]: "near", [far]: nearness(near) - nearness(far) > 30 ? "far" : "near" };
  const marks = [boardEdge(figures, seen)];
  for (const name of [far, near]) {
    marks.push(...footMarks(name, figures[name], seen));
    if (exists) marks.push(...limbMarks(name, figures[name], seen, tones[name]));
  }
  if (exists) {
    for (const name of [far, near]) {
      marks.push(...wedgeMarks(name, figures[name], states[name], seen));
      marks.push(...boneMarks(name, figures[name], seen, tones[name]));
    }
    marks.push(...pelvisMarks(figures, seen));
  }
  const knees = exists ? ENDS.map((end) => abs(seen(figures[end].knee)[0]) + 60) : [];
  const window = uprightWindow(figures, seen, 350, knees);
  const atHip = (end) => seen(figures[end].hip)[0];
  const frontRight = !exists || atHip("front") >= atHip("rear");
  const calls = ENDS.map((end) => ({
    end,
    edge: (end === "front") === frontRight ? 1 : -1,
    target: seen(sum(figures[end].knee, figures[end].inPlane, 0.55 * figures[end].thigh)),
  }));
  return { marks, window, calls };
}

function fromTheSide({ inputs, figures, exists, hand }) {
  const facing = facingOf(inputs);
  const seen = seenBy({ right: [hand * sin(facing), hand * cos(facing), 0], up: [0, 0, 1] });
  const marks = [boardEdge(figures, seen)];
  for (const name of ENDS) marks.push(...footMarks(name, figures[name], seen));
  if (exists) {
    for (const [name, tone] of [["front", "far"], ["rear", "near"]]) {
      const figure = figures[name];
      marks.push(...flexFan(name, figure, seen), ...limbMarks(name, figure, seen, tone));
      marks.push(...boneMarks(name, figure, seen, tone), ...bendMarks(name, figure, seen));
    }
    marks.push(...pelvisMarks(figures, seen));
  }
  const window = uprightWindow(figures, seen, 350, [320]);
  const aheadRight = ENDS.reduce((all, end) => all + seen(figures[end].along)[0], 0) >= 0;
  const calls = ENDS.map((end) => ({
    end,
    edge: aheadRight === (end === "front") ? 1 : -1,
    target: seen(figures[end].knee),
  }));
  return { marks, window, calls };
}

/** How far the boot lets the shank go, as a fan about the ankle. */
function flexFan(name, figure, seen) {
  const { ankle, own, along } = figure.chain;
  const rest = own.forward_lean_deg * RADIANS, play = own.flex_range_deg * RADIANS;
  const radius = 0.62 * figure.shank;
  const fan = sector(ankle, figure.planeUp, along, rest - play, rest + play, radius);
  const tip = inBetween(ankle, figure.planeUp, along, radius, rest);
  return [
    area(`${name}.flex_range`, `${name}.fan`, fan.map(seen)),
    line(`${name}.flex_rest`, `${name}.rest`, [seen(ankle), seen(tip)]),
  ];
}

/** The shank's line produced past the knee, and the arc of the bend. */
function bendMarks(name, figure, seen) {
  const { knee, planeUp, along, bootFlex, kneeFlexion } = figure;
  const radius = 0.34 * figure.thigh;
  const at = (angle, far = radius) => seen(inBetween(knee, planeUp, along, far, angle));
  const bend = Array.from({ length: 11 }, (_, i) => at(bootFlex - (i * kneeFlexion) / 10));
  return [
    line(`${name}.produced`, `${name}.thin`, [seen(knee), at(bootFlex, 1.2 * radius)]),
    line(`${name}.bend`, `${name}.thin`, bend),
  ];
}

const inDirection = (angle) => [[sin(angle), cos(angle), 0], [cos(angle), -sin(angle), 0]];

/** The directions and distances that the plan's axes and dimensions share. */
function planOf({ inputs, figures, shape, exists, hand }) {
  const seen = seenBy({ right: [0, hand, 0], up: [1, 0, 0] });
  const angle = 0.5 * (inputs.front_angle_deg + inputs.rear_angle_deg) * RADIANS;
  const [ahead, aside] = inDirection(angle);
  const [length, wide] = [inputs.stance_length_mm, inputs.across_spacing_mm];
  const toesOf = (end) => 0.5 * shape.sole_length * figures[end].chain.own.foot_length_mm;
  const toes = { front: toesOf("front"), rear: toesOf("rear") };
  const longest = Math.max(toes.front, toes.rear);
  const longApart = length * cos(angle) + wide * sin(angle);
  const longLine = 0.5 * abs(length * sin(angle) - wide * cos(angle)) + longest + 18;
  const hipInPlane = ({ hip, hingeAxis, thigh, offPlane }) =>
    sum(hip, hingeAxis, -thigh * sin(offPlane));
  const joints = exists
    ? ENDS.flatMap((end) => {
        const figure = figures[end];
        return [figure.chain.ankle, figure.knee, figure.hip, hipInPlane(figure)];
      })
    : [];
  const at = (forward, outer) => seen(plus(scaled(ahead, forward), scaled(aside, outer)));
  return {
    seen, ahead, aside, toes, longest, longApart, longLine, hipInPlane, joints, at, length, wide,
    produced: (centre, way, start, end) => [seen(sum(centre, way, start)), seen(sum(centre, way, end))],
  };
}

function fromAbove(shown) {
  const { inputs, figures, states, exists, hand, shape, mass, share } = shown;
  const plan = planOf(shown);
  const { seen } = plan;
  const top = (plan.longLine + 90) * abs(plan.ahead[0]);
  const half = outwards(Math.max(0.5 * plan.length + 225, top), 50);
  const rings = Object.fromEntries(
    ENDS.map((end) => [end, figures[end].ring(shape.footprint, 2 * plan.toes[end], 0).map(seen)]),
  );
  const [board, tip] = boardFromAbove(half, inputs);
  const marks = [
    ...board,
    area("balance.base", "balance.base", hull([...rings.front, ...rings.rear])),
    ...dimensions(shown, plan),
  ];
  const labels = [];
  for (const end of ["rear", "front"]) {
    const { centre } = figures[end];
    const [ahead, aside] = inDirection(inputs[`${end}_angle_deg`] * RADIANS);
    const toLong = plan.longLine + 10 - dot(plan.ahead, centre);
    const heel = sum(centre, ahead, -0.55 * plan.toes[end]);
    const outward = (end === "front" ? 0.52 : -0.52) * plan.toes[end];
    marks.push(
      area(`${end}.sole`, `${end}.sole`, rings[end]),
      line(`${end}.axis`, `${end}.axis`, plan.produced(centre, ahead, -plan.toes[end] - 20, toLong)),
      dotAt(`${end}.centre`, `${end}.centre`, seen(centre), 2.5),
    );
    labels.push({ what: "angle", end, at: seen(sum(heel, aside, outward)), from: seen(heel) });
  }
  for (const end of exists ? ["rear", "front"] : []) {
    const figure = figures[end], state = states[end];
    const inPlane = plan.hipInPlane(figure);
    marks.push(
      line(`${end}.trace`, `trace.${state}`, plan.produced(inPlane, figure.along, -55, 130)),
      line(`${end}.miss`, `miss.${state}`, [seen(inPlane), seen(figure.hip)]),
      line(`${end}.bones`, `${end}.plan`, [figure.chain.ankle, figure.knee, figure.hip].map(seen)),
      dotAt(`${end}.knee`, `${end}.joint.near`, seen(figure.knee), 4.5),
    );
  }
  if (exists) {
    const middle = scaled(plus(figures.front.hip, figures.rear.hip), 0.5);
    const [facing] = inDirection(facingOf(inputs));
    const [rear, front] = [seen(figures.rear.hip), seen(figures.front.hip)];
    marks.push(
      line("facing", "facing", plan.produced(middle, facing, 0, 74)),
      line("pelvis", "pelvis.plan", [rear, front]),
      dotAt("front.hip", "hip", front, 4.5),
      dotAt("rear.hip", "hip", rear, 4.5),
      dotAt("balance.mass", "balance.mass", seen(mass), 6),
      dotAt("balance.point", "balance.point", seen(mass), 2),
    );
    if (share === share) labels.push({ what: "share", at: [0, -half] });
  }
  labels.push({ what: "nose", at: [-hand * tip, half] }, { what: "tail", at: [-hand * tip, -half] });
  return { marks, labels, calls: [], window: planWindow(marks, inputs) };
}

function planWindow(marks, inputs) {
  const points = marks.flatMap((mark) =>
    mark.kind === "span" ? [mark.start, mark.end] : mark.points || [],
  );
  const edge = (sign, axis) =>
    sign * outwards(Math.max(...points.map((p) => sign * p[axis])) + 4, 10);
  return {
    left: Math.min(edge(-1, 0), -400),
    right: Math.max(edge(1, 0), 400),
    bottom: Math.min(edge(-1, 1), -300),
    top: Math.max(edge(1, 1), 300),
  };
}

/** The board between two break lines, and half its width there. */
function boardFromAbove(half, inputs) {
  const waist = Math.max(250, abs(inputs.across_spacing_mm) + 150);
  const stations = Array.from({ length: 21 }, (_, i) => (half * (i - 10)) / 10);
  const edge = stations.map((x) => [0.5 * waist + 0.0001 * x * x, x]);
  const tip = edge[20][0];
  const zigzag = [[0.14, 0], [0.05, 13], [-0.05, -13], [-0.14, 0]];
  const breaks = (at, way) => zigzag.map(([part, rise]) => [way * part * tip, at + rise]);
  const other = [...edge].reverse().map(([y, x]) => [-y, x]);
  const outline = [...edge, ...breaks(half, 1), ...other, ...breaks(-half, -1)];
  const centre = line("board.centre", "centre", [[0, -half - 14], [0, half + 14]]);
  return [[area("board", "board", outline), centre], tip];
}

/** Stance length, the distances of the axes, and where the legs hang. */
function dimensions({ inputs, figures, hand }, plan) {
  const { seen, at, longLine, longApart, joints, length, wide } = plan;
  const half = 0.5 * inputs.neutral_spacing_mm;
  const marks = [span("neutral", at(longLine, half), at(longLine, -half), seen(plan.ahead), 1)];
  const [rear, front] = [seen(figures.rear.centre), seen(figures.front.centre)];
  if (length > 8) {
    const flat = [inputs.front_angle_deg, inputs.rear_angle_deg].map((a) => abs(cos(a * RADIANS)));
    const heels = plan.longest * Math.max(...flat) + 95;
    const legs = Math.max(0, ...joints.map((p) => (hand > 0 ? 55 : 64) - hand * seen(p)[0]));
    const x = -hand * Math.max(Math.max(250, heels) + 0.5 * abs(wide), legs);
    for (const c of [rear, front]) {
      marks.push(line("length.projection", "projection", [c, [x - 8 * hand, c[1]]]));
    }
    marks.push(span("length", [x, rear[1]], [x, front[1]]));
  }
  if (abs(wide) > 8) {
    const lowest = joints.length ? Math.min(...joints.map((p) => seen(p)[1])) : 0;
    const y = Math.min(Math.min(rear[1], front[1]) - plan.longest - 46, lowest - 64);
    for (const c of [rear, front]) marks.push(line("across.projection", "projection", [c, [c[0], y - 8]]));
    marks.push(span("across", [rear[0], y], [front[0], y]));
  }
  if (abs(longApart) > 8) {
    marks.push(span("long_axes", at(longLine, 0.5 * longApart), at(longLine, -0.5 * longApart)));
  }
  return marks;
}
