"use strict";

// Where two legs settle: the same equations, start and steps as Kneeline's own geometry, for
// one stance.  Lengths in mm, angles in radians; a vector is [x, y, z]: nose, toe side, up.
// Every constant comes from the program, in `constants`.

const { abs, atan2, cos, exp, sin, sqrt, tan } = Math;
const RADIANS = Math.PI / 180;

const dot = (a, b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a, b) => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const scaled = (a, by) => [a[0] * by, a[1] * by, a[2] * by];
const plus = (a, b) => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
const minus = (a, b) => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const unit = (a) => scaled(a, 1 / sqrt(dot(a, a)));
/** `a` turned towards `b`, which is square to it. */
const turned = (a, b, angle) => plus(scaled(a, cos(angle)), scaled(b, sin(angle)));

const within = (x, limit) => -limit < x && x < limit;
const larger = (x, y) => (x > y ? x : y);
const smaller = (x, y) => (x < y ? x : y);
const clipped = (x, low, high) => smaller(larger(x, low), high);
const root = (x) => (x > 0 ? sqrt(x) : 0);

function solver(constants) {
  const { masses, search } = constants;
  const ofDepth = masses.upper_body + 2 * masses.of_hip;

  /** What one leg keeps while the pelvis moves; `side` is 1 in front and -1 in the rear. */
  function chainOf(inputs, end, side, own) {
    const angle = inputs[`${end}_angle_deg`] * RADIANS;
    const lift = inputs[`${end}_lift_deg`] * RADIANS;
    const [s, c] = [sin(angle), cos(angle)];
    const toeUp = tan(lift), outerUp = side * tan(inputs[`${end}_cant_deg`] * RADIANS);
    const normal = unit([-toeUp * s - outerUp * c, outerUp * s - toeUp * c, 1]);
    const foot = [s * cos(lift), c * cos(lift), sin(lift)];
    const outward = scaled(cross(foot, normal), side);
    const centre = scaled([0.5 * inputs.stance_length_mm, -0.5 * inputs.across_spacing_mm, 0], side);
    const above = own.ankle_height_mm + own.sole_thickness_mm;
    const setback = constants.setback_share * own.foot_length_mm;
    const tracking = own.knee_tracking_deg * RADIANS;
    const shank = own.knee_height_mm - own.ankle_height_mm;
    const thigh = own.hip_height_mm - own.knee_height_mm;
    const inward = 0.5 * (inputs.neutral_spacing_mm - inputs.hip_spacing_mm);
    const cuff =
      atan2(inward, own.hip_height_mm - own.ankle_height_mm) + own.cuff_offset_deg * RADIANS;
    const give = own.side_give_deg * RADIANS;
    return {
      side, own, centre, foot, outward, normal, shank, thigh, cuff, give, setback,
      ankle: minus(plus(centre, scaled(normal, above)), scaled(foot, setback)),
      along: turned(foot, outward, -tracking),
      outer: turned(outward, foot, tracking),
      squares: shank * shank + thigh * thigh,
      leastLean: [cos(cuff - give), sin(cuff - give)],
      mostLean: [cos(cuff + give), sin(cuff + give)],
    };
  }

  /** What foot and ankle bring to the balance along `facing`. */
  function loadOf({ own, centre, foot, setback, shank }, facing) {
    const counts = masses.of_knee + masses.of_ankle + masses.foot;
    const along = masses.foot * masses.ahead_of_ankle * own.foot_length_mm - counts * setback;
    const above = own.ankle_height_mm + own.sole_thickness_mm;
    return {
      still: counts * dot(centre, facing) + along * dot(foot, facing),
      upward: counts * above - masses.foot * own.ankle_height_mm,
      shank: masses.of_knee * shank,
    };
  }

  const inSoleAxes = (chain, v) => [dot(chain.along, v), dot(chain.outer, v), dot(chain.normal, v)];

  /** Length of a thigh within its plane, and how fast it shrinks with the miss. */
  function inPlane(thigh, miss) {
    if (miss === 0) return [thigh, 0];
    const most = sin(search.trusted_off_plane) * thigh;
    if (within(miss, most)) {
      const length = root(thigh * thigh - miss * miss);
      return [length, miss / length];
    }
    const trusted = clipped(miss, -most, most);
    const squared = thigh * thigh - trusted * trusted;
    const shrunk = exp((-abs(miss - trusted) * most) / squared);
    return [root(squared) * shrunk, (trusted / root(squared)) * shrunk];
  }

  /** How a hip, `hip` from its ankle in the sole's axes, stands to its leg. */
  function spanTo(leg, hip) {
    const [forward, outward, up] = hip;
    const { leastLean, mostLean } = leg.chain;
    const beyond = leastLean[0] * outward + leastLean[1] * up;
    const short = mostLean[0] * outward + mostLean[1] * up;
    const aside = outward * outward + up * up;
    const perAside = 1 / sqrt(aside);
    const held = beyond > 0 || short < 0;
    const through = [up * perAside, -outward * perAside];
    const lean = beyond > 0 ? leastLean : short < 0 ? mostLean : through;
    const miss = larger(beyond, 0) + smaller(short, 0);
    const [thigh, shortening] = inPlane(leg.chain.thigh, miss);
    const distance = forward * forward + aside;
    return {
      hip, lean, miss, thigh, shortening, distance,
      rise: lean[0] * up - lean[1] * outward,
      leaning: held ? 0 : perAside,
      possible: distance < search.farthest * leg.chain.squares,
    };
  }

  function bent(leg, span, flexion) {
    const { shank, squares } = leg.chain;
    const { thigh, hip, rise } = span;
    const [cosine, sine] = [cos(flexion), sin(flexion)];
    const gap = span.distance - squares - 2 * shank * thigh * cosine;
    const along = shank + thigh * cosine, aside = thigh * sine;
    const forward = hip[0] * along + rise * aside, upward = rise * along - hip[0] * aside;
    const per = 1 / sqrt(forward * forward + upward * upward);
    return { cosine, sine, gap, forward: forward * per, upward: upward * per };
  }

  const upPlane = (span, v) => span.lean[0] * v[2] - span.lean[1] * v[1];

  /** Weighted distance ahead of knee, ankle and foot. */
  function aheadOf({ load, fore }, span, bend) {
    const knee = bend.forward * fore[0] + bend.upward * upPlane(span, fore);
    return load.still + load.upward * fore[2] + load.shank * knee;
  }

  /** How gap and weight of a leg change with depth, height and flexion. */
  function slopesOf(leg, span, bend) {
    const { shank } = leg.chain;
    const { hip, lean, rise, thigh } = span;
    const bones = shank * thigh;
    const perReach = 1 / (shank * shank + 2 * bones * bend.cosine + thigh * thigh);
    const perPlane = 1 / (hip[0] * hip[0] + rise * rise);
    const shortened = shank * span.shortening;
    const { fore, load } = leg;
    const byFlex = load.shank * (bend.upward * fore[0] - bend.forward * upPlane(span, fore));
    const byLean = -load.shank * bend.upward * (lean[0] * fore[1] + lean[1] * fore[2]);
    const gap = [], weight = [];
    for (const motion of [leg.fore, leg.lift]) {
      const rising = lean[0] * motion[2] - lean[1] * motion[1];
      const leaving = lean[0] * motion[1] + lean[1] * motion[2];
      const missing = shortened * leaving;
      const flex =
        (rise * motion[0] - hip[0] * rising) * perPlane - bend.sine * perReach * missing;
      gap.push(2 * (dot(hip, motion) + bend.cosine * missing));
      weight.push(byFlex * flex - byLean * span.leaning * leaving);
    }
    gap.push(2 * bones * bend.sine);
    weight.push(byFlex * (thigh * thigh + bones * bend.cosine) * perReach);
    return { gap, weight };
  }

  /** Both legs bent as asked under a pelvis at [depth, height, more]. */
  function legsAt(task, place) {
    const [depth, height, more] = place;
    const legs = task.legs.map((leg, i) => {
      const hip = plus(leg.rest, plus(scaled(leg.fore, depth), scaled(leg.lift, height)));
      const span = spanTo(leg, hip);
      return { span, bend: bent(leg, span, i ? task.bend - more : task.bend + more) };
    });
    const [front, rear] = task.legs.map((leg, i) => aheadOf(leg, legs[i].span, legs[i].bend));
    return {
      legs,
      ahead: ofDepth * depth + task.behind + front + rear,
      possible: legs[0].span.possible && legs[1].span.possible,
    };
  }

  function heightAt(leg, depth, kneeBend) {
    const { squares, shank, thigh } = leg.chain;
    const reach = squares + 2 * shank * thigh * cos(kneeBend);
    const level = plus(leg.rest, scaled(leg.fore, depth));
    const down = dot(level, leg.lift);
    return root(larger(reach - (dot(level, level) - down * down), 0.01 * reach)) - down;
  }

  function start(task) {
    const [front, rear] = task.legs;
    const above = -0.5 * (dot(front.rest, front.fore) + dot(rear.rest, rear.fore));
    const flex = search.flex_of_bend * task.bend;
    const supposed = ({ load, fore }) =>
      load.still + load.upward * fore[2] +
      load.shank * (sin(flex) * fore[0] + cos(flex) * fore[2]);
    const depth = -(task.behind + supposed(front) + supposed(rear)) / ofDepth;
    const kneeBend = larger(task.bend, search.start_bend);
    const [one, other] = task.legs.map((leg) => heightAt(leg, depth, kneeBend));
    const height = 0.5 * (one + other);
    const bones = front.chain.shank * front.chain.thigh + rear.chain.shank * rear.chain.thigh;
    const more = ((one - other) * height) / (bones * sin(kneeBend));
    const most = search.most_start_more;
    return { held: [above, height, clipped(more, -most, most)], step: [above - depth, 0, 0] };
  }

  /** Newton's step: the inverse Jacobian, by Cramer's rule, on what is off. */
  function newtonStep(task, at) {
    const [front, rear] = task.legs.map((leg, i) => slopesOf(leg, at.legs[i].span, at.legs[i].bend));
    const one = front.gap, other = [rear.gap[0], rear.gap[1], -rear.gap[2]];
    const weight = [
      ofDepth + front.weight[0] + rear.weight[0],
      front.weight[1] + rear.weight[1],
      front.weight[2] - rear.weight[2],
    ];
    const byWeight = cross(one, other);
    const determinant = dot(weight, byWeight);
    const per = within(determinant, search.singular) ? 0 : 1 / determinant;
    const [gap, otherGap] = at.legs.map(({ bend }) => bend.gap);
    const gaps = minus(scaled(other, gap), scaled(one, otherGap));
    return scaled(plus(cross(gaps, weight), scaled(byWeight, at.ahead)), per);
  }

  function bounded(task, step) {
    const bones = task.legs.reduce((sum, { chain }) => sum + chain.shank + chain.thigh, 0);
    const longest = 0.5 * search.longest_move * bones;
    const moves = larger(abs(step[0]), abs(step[1]));
    const excess = larger(moves / longest, abs(step[2]) / search.largest_turn);
    return excess < 1 ? step : scaled(step, 1 / larger(excess, 1));
  }

  function isTiny(task, step) {
    const shortest = task.legs.map(({ chain }) => smaller(chain.shank, chain.thigh));
    const tiny = 2 * search.last_step * smaller(...shortest);
    return within(step[0], tiny) && within(step[1], tiny) && within(step[2], search.last_step);
  }

  function settle(task) {
    const first = start(task);
    let state = first, place;
    for (let i = 0; i < search.most_steps; i += 1) {
      const next = minus(state.held, state.step);
      const at = legsAt(task, next);
      state = at.possible
        ? { held: next, step: bounded(task, newtonStep(task, at)) }
        : { held: state.held, step: scaled(state.step, 0.5) };
      place = minus(state.held, state.step);
      if (isTiny(task, state.step)) break;
    }
    const at = legsAt(task, place);
    return { place, at, ...verdict(task, first, place, at) };
  }

  /** Whether the legs stand as they were found; where they do not, whose fault that is. */
  function verdict(task, first, place, at) {
    const chains = task.legs.map(({ chain }) => chain);
    const settled =
      chains.every(
        ({ shank, thigh }, i) => within(at.legs[i].bend.gap, search.accepted * shank * thigh),
      ) && within(at.ahead, search.accepted * (chains[0].shank + chains[0].thigh));
    const fits = at.possible && settled && at.legs.every(({ span }) => span.rise > 0);
    const bends = [task.bend + place[2], task.bend - place[2]].map(
      (flexion) => flexion > -search.accepted && flexion < Math.PI,
    );
    const off = chains.map(({ thigh }, i) => abs(at.legs[i].span.miss) / thigh);
    const stays = larger(...off) <= sin(search.most_off_plane);
    const stands = fits && bends[0] && bends[1];
    if (stands && stays) return { exists: true, rearAtFault: false, leavesPlane: false };
    if (!fits) {
      const { legs } = legsAt(task, minus(first.held, first.step));
      const [front, rear] = legs.map(({ bend }) => bend.gap);
      const rearAtFault = rear * chains[0].squares >= front * chains[1].squares;
      return { exists: false, rearAtFault, leavesPlane: false };
    }
    const rearAtFault = stands ? off[1] > off[0] : bends[0];
    const tooFar = larger(...off) > 1;
    return { exists: false, rearAtFault, leavesPlane: !stays && !tooFar && stands };
  }

  /** One settled leg, its joints and its directions; nan where there is no posture. */
  function legOf(chain, { span, bend }, hip, flexion, exists) {
    const missing = exists ? 0 : NaN;
    const wanted = atan2(-span.hip[1], span.hip[2]) - chain.cuff + missing;
    const lean = chain.cuff + clipped(wanted, -chain.give, chain.give) + missing;
    const bootFlex = atan2(bend.forward, bend.upward) + missing;
    const planeUp = turned(chain.normal, chain.outer, -lean);
    const shankAxis = turned(planeUp, chain.along, bootFlex);
    return {
      chain, lean, bootFlex, planeUp, shankAxis,
      hip: plus(hip, [missing, missing, missing]),
      knee: plus(chain.ankle, scaled(shankAxis, chain.shank)),
      hingeAxis: turned(chain.outer, chain.normal, lean),
      offPlane: atan2(span.miss, span.thigh) + missing,
      kneeFlexion: flexion + missing,
      wantedGive: wanted,
    };
  }

  /** The body's centre of mass. */
  function massCentre(legs, upperBody) {
    return legs.reduce((sum, { chain, hip, knee }) => {
      const { own, ankle, normal, foot } = chain;
      const below = minus(ankle, scaled(normal, own.ankle_height_mm));
      const inFoot = plus(below, scaled(foot, masses.ahead_of_ankle * own.foot_length_mm));
      const joints = plus(scaled(hip, masses.of_hip), scaled(knee, masses.of_knee));
      const low = plus(scaled(ankle, masses.of_ankle), scaled(inFoot, masses.foot));
      return plus(sum, plus(joints, low));
    }, scaled(upperBody, masses.upper_body));
  }

  /**
   * Where the rider settles.  `inputs` are named as on Kneeline's command line, those of each
   * leg within `left` and `right`.
   */
  return function solve(inputs) {
    const leftLeads = inputs.lead_foot === "left";
    const owns = leftLeads ? [inputs.left, inputs.right] : [inputs.right, inputs.left];
    const chains = [chainOf(inputs, "front", 1, owns[0]), chainOf(inputs, "rear", -1, owns[1])];
    const balanced = 0.5 * (inputs.front_angle_deg + inputs.rear_angle_deg) * RADIANS;
    const faced = balanced + inputs.hips_turned_deg * RADIANS;
    const facing = [sin(balanced), cos(balanced), 0];
    const forward = [sin(faced), cos(faced), 0], across = [cos(faced), -sin(faced), 0];
    const middle = scaled([cos(balanced), -sin(balanced), 0], inputs.hip_shift_mm);
    const half = scaled(across, 0.5 * inputs.hip_spacing_mm);
    const hips = [plus(middle, half), minus(middle, half)];
    const lean = inputs.back_lean_deg * RADIANS;
    const trunk = masses.above_hips * 0.5 * (owns[0].hip_height_mm + owns[1].hip_height_mm);
    const task = {
      legs: chains.map((chain, i) => ({
        chain,
        load: loadOf(chain, facing),
        rest: inSoleAxes(chain, minus(hips[i], chain.ankle)),
        fore: inSoleAxes(chain, facing),
        lift: [chain.along[2], chain.outer[2], chain.normal[2]],
      })),
      bend: inputs.knee_bend_deg * RADIANS,
      behind:
        masses.upper_body * trunk * sin(lean) * dot(forward, facing) - inputs.weight_ahead_mm,
    };
    const { place, at, exists, rearAtFault, leavesPlane } = settle(task);
    const moved = plus(scaled(facing, place[0]), [0, 0, place[1]]);
    const flexions = [task.bend + place[2], task.bend - place[2]];
    const [front, rear] = chains.map((chain, i) =>
      legOf(chain, at.legs[i], plus(hips[i], moved), flexions[i], exists),
    );
    const upright = turned([0, 0, 1], forward, lean);
    const mass = massCentre([front, rear], plus(plus(middle, moved), scaled(upright, trunk)));
    const [length, wide] = [inputs.stance_length_mm, inputs.across_spacing_mm];
    const share = 0.5 + (mass[0] * length - mass[1] * wide) / (length * length + wide * wide);
    return { exists, rearAtFault, leavesPlane, front, rear, mass, share };
  };
}
