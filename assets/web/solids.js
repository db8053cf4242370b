"use strict";

// Boot, mount and limb of a leg as simple solids in space, and outlines of such on paper: as
// Kneeline draws them.

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
