"use strict";

// What the three views show, in mm on the paper of each (right and up): the same marks as in
// Kneeline's own drawings.  A mark has a key, a role that decides how it looks, and its points.

const ENDS = ["front", "rear"];

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
  const half = outwards(Math.max(Math.max(...soles, ...reach) + 30, least), 10);
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
  const half = outwards(Math.max(0.5 * plan.length + 225, top), 10);
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
