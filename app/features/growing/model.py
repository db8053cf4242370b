"""Growing riders: last season's set-up beside the present one, and a forecast.

Full cants are those of the present stance, for the legs of then, of now and of
the forecast alike: so they tell what growing alone has done.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import degrees, hypot, isnan
from typing import Any, Final, NamedTuple

from app.rider.inputs import (
    ENDS,
    FIELD,
    FIELDS,
    Inputs,
    changed,
    differing,
    fields_told,
    model,
    side_and_name,
)
from app.rider.setup import LEG_NAMES, Setup
from app.rider.spreads import correlations_of, spread_of, spreads_of
from app.stance.needs import Need
from app.words.field import IN_OUT, TOE_HEEL, Field
from app.words.language import msgid, tr
from app.words.lengths import IN_MM, Lengths
from app.words.scale import Scale
from app.words.sentences import as_sentence, spoken, tilt_words
from app.words.units import DEGREES, MINUS, YEARS, amount, fixed
from geometry import Body, PostureInputs
from geometry.fitting.fit import fit_of
from geometry.fitting.margins import margins_of
from geometry.riders.growth import Children
from geometry.riders.season import FOOT, HEIGHTS, SPACINGS, Forecast, forecast

COLUMNS: Final = (msgid("Measure"), msgid("Then"), msgid("Now"), msgid("Change"), msgid("Forecast"))
"""Headings of the comparison, in the order of :class:`Row`."""

GROWING: Final = tuple(
    field for field in FIELDS if field.name.removesuffix("_mm") in {*HEIGHTS, FOOT, *SPACINGS}
)
"""What grows."""
TOLD: Final = ("stance", "mounts", "boots")
"""Groups of inputs of which only what differs is told."""


class Row(NamedTuple):
    """One line of the comparison, in words; "" where there is nothing to tell."""

    label: str
    then: str
    now: str
    change: str
    forecast: str


class Ahead(NamedTuple):
    """What the growth figures expect.

    Attributes:
        legs: the forecast of the legs.
        inputs: the present inputs with the lengths that they forecast.
        full_cants: what they would need in the present stance, front and rear.
        blind: whether the standing height was missing, which widens the spread.
    """

    legs: Forecast
    inputs: Inputs
    full_cants: tuple[Need, Need]
    blind: bool

    def spread_mm(self, name: str) -> float:
        """Standard error of a forecast length by its name among the inputs."""
        return self.legs.spreads[side_and_name(name)[1].removesuffix("_mm")]

    @property
    def words(self) -> str:
        """What to write wherever the forecast is shown."""
        age = fixed(self.legs.age, 1)
        expected = as_sentence(
            tr("forecast for the age of {age}: measure before mounting", age=age)
        )
        # From memory, no source: see geometry.riders.season.FOOT.
        foot = tr("Feet stop growing before legs do, so the foot is rather long in it.")
        said = [expected, foot]
        if self.blind:
            said.append(tr("A standing height, under Legs, would narrow it."))
        return " ".join(said)


def years_scale(field: Field) -> Scale:
    """The scale of a number of years in :mod:`app.features.growing.ages`."""
    steps = (field.fine_step, field.step, field.coarse_step)
    return Scale(field.low, field.high, steps, YEARS)


def ahead_of(setup: Setup, age: float, years: float, children: Children) -> Ahead:
    """What the published growth figures expect of a rider.

    Args:
        setup: with the legs as they are now.
        age: of the rider (years), 6 to 18.
        years: how far to look (years), 0 to 12.
        children: whose figures to take.

    Raises:
        ValueError: an age outside the figures, or legs that contradict each other.
    """
    given, stature = model(setup.inputs), setup.known.stature_mm
    legs = forecast(given.body, age, years, children=children, stature=stature)
    # What is not known of the legs today is not known of them later either.
    today = _Errors(spreads_of(setup), correlations_of(setup))
    errors = _both_errors(today, _Errors(dict(legs.spreads), legs.correlations))
    grown = _with_body(setup.inputs, legs.body)
    cants = _full_cants(given._replace(body=legs.body), errors)
    return Ahead(legs, grown, cants, stature is None)


class _Errors(NamedTuple):
    """Standard errors by name in the geometry (mm or rad), and how far they go together."""

    spreads: dict[str, float]
    correlations: dict[tuple[str, str], float]


def _both_errors(one: _Errors, other: _Errors) -> _Errors:
    """Two independent errors of the same dimensions, one on top of the other."""
    names = {**one.spreads, **other.spreads}
    spreads = {n: hypot(one.spreads.get(n, 0.0), other.spreads.get(n, 0.0)) for n in names}
    shared: dict[tuple[str, str], float] = {}
    for each in (one, other):
        for (a, b), together in each.correlations.items():
            pair = (b, a) if (b, a) in shared else (a, b)
            product = spreads[a] * spreads[b]
            part = together * each.spreads[a] * each.spreads[b] / product if product else 0.0
            shared[pair] = shared.get(pair, 0.0) + part
    return _Errors(spreads, shared)


def _with_body(inputs: Inputs, body: Body) -> Inputs:
    """The inputs with the lengths of a body, which may lie beyond what can be typed."""
    grown: dict[str, Any] = {
        inputs.side(end): replace(
            inputs.leg(end),
            **{f"{name}_mm": float(getattr(leg, name)) for name in (*HEIGHTS, FOOT)},
        )
        for end, leg in zip(ENDS, body.legs, strict=True)
    }
    grown |= {f"{name}_mm": float(getattr(body, name)) for name in SPACINGS}
    return replace(inputs, **grown)


def full_cants(legs: Setup, present: Inputs) -> tuple[Need, Need]:
    """What a set-up's legs would need in the present stance, front and rear.

    Raises:
        ValueError: the legs contradict each other.
    """
    own = {name: legs.inputs.value(name) for name in LEG_NAMES}
    there = replace(legs, inputs=changed(present, **own))
    errors = _Errors(spreads_of(there), correlations_of(there))
    return _full_cants(model(there.inputs), errors)


def _full_cants(solved: PostureInputs, errors: _Errors) -> tuple[Need, Need]:
    fit = fit_of(*solved)
    margins = margins_of(solved, fit, *errors)
    return (
        Need(degrees(fit.front.full_cant), degrees(margins.front.full_cant)),
        Need(degrees(fit.rear.full_cant), degrees(margins.rear.full_cant)),
    )


def compared(
    now: Setup, then: Setup | None, ahead: Ahead | None, lengths: Lengths = IN_MM
) -> tuple[Row, ...]:
    """The comparison line by line.

    Args:
        now: the present set-up.
        then: last season's; None where none was chosen.
        ahead: the forecast; None where no age was said.
        lengths: writes lengths.

    Raises:
        ValueError: the legs of one of them contradict each other.
    """
    return (
        *_length_rows(now, then, ahead, lengths),
        *_cants(now, then, ahead),
        *_other_inputs(now, then, lengths),
    )


def shrunk(now: Setup, then: Setup | None) -> tuple[str, ...]:
    """Labels of the lengths that shrank by more than the error of measuring."""
    if then is None:
        return ()
    return tuple(
        FIELD[name].label
        for name, before, after in lengths_of(then, now)
        if before - after > change_error(then, now, name)
    )


def lengths_of(then: Setup, now: Setup) -> Iterator[tuple[str, float, float]]:
    """Every length that grows by its name among the inputs, then and now (mm).

    A length in which both legs agree, then and now, is told once.
    """
    for field in fields_told(then.inputs, now.inputs, fields=GROWING):
        yield field.name, then.inputs.value(field.name), now.inputs.value(field.name)


def change_error(then: Setup, now: Setup, name: str) -> float:
    """Standard error of how a length changed, by its name among the inputs (mm)."""
    return hypot(spread_of(then, name), spread_of(now, name))


def _length_rows(
    now: Setup, then: Setup | None, ahead: Ahead | None, lengths: Lengths
) -> Iterator[Row]:
    for name, before, after in lengths_of(then or now, now):
        change = ""
        if then is not None:
            change = _change_words(after - before, change_error(then, now, name), lengths)
        yield Row(
            FIELD[name].label,
            _known_length(then, name, lengths) if then is not None else "",
            _known_length(now, name, lengths),
            change,
            _forecast_length(ahead, name, lengths) if ahead else "",
        )


def _known_length(setup: Setup, name: str, lengths: Lengths) -> str:
    """A length, and where it comes from unless it was measured."""
    value = lengths.text(setup.inputs.value(name))
    origin = setup.origin(name)
    return value if origin == "measured" else f"{value}, {tr(_ORIGINS[origin], 'in a cell')}"


_ORIGINS: Final = {
    "default": msgid("default", "in a cell"),
    "estimated": msgid("estimated", "in a cell"),
    "example": msgid("example", "in a cell"),
}


def _forecast_length(ahead: Ahead, name: str, lengths: Lengths) -> str:
    spread = max(ahead.spread_mm(name), 1.0)
    return lengths.pair(ahead.inputs.value(name), " ± ", spread, 0)


def _change_words(change: float, error: float, lengths: Lengths) -> str:
    """A difference (mm) with its error, and a word where it is no larger than that."""
    if round(change) == 0:
        return tr("none, give or take {error}", error=lengths.text(error, 0))
    sign = MINUS if change < 0.0 else "+"
    by = sign + lengths.pair(abs(change), " ± ", error, 0)
    return tr("{change}, unsure", change=by) if abs(change) <= error else by


def _cants(now: Setup, then: Setup | None, ahead: Ahead | None) -> Iterator[Row]:
    present = full_cants(now, now.inputs)
    before = full_cants(then, now.inputs) if then is not None else (None, None)
    later = ahead.full_cants if ahead is not None else (None, None)
    for i, leg in enumerate(("front", "rear")):
        yield Row(
            tr(_FULL_CANTS[leg]),
            _cant_words(before[i]),
            _cant_words(present[i]),
            _cant_change(before[i], present[i]),
            _cant_words(later[i]),
        )


_FULL_CANTS: Final = {
    "front": msgid("Whole cant, front"),
    "rear": msgid("Whole cant, rear"),
}


def _cant_words(cant: Need | None) -> str:
    if cant is None:
        return ""
    if isnan(cant.deg):
        return tr("none", "of cant or lift")
    return f"{_sided(cant.shown_deg)} ± {amount(cant.shown_margin_deg, DEGREES)}"


def _sided(cant_deg: float) -> str:
    """A cant and its side, as short as a cell asks for: "4.0° in"."""
    return tilt_words(IN_OUT, cant_deg) if cant_deg else amount(0.0, DEGREES)


def _cant_change(before: Need | None, now: Need) -> str:
    """How a full cant moved, in half degrees, and a word where its error is no smaller."""
    if before is None or isnan(before.deg) or isnan(now.deg):
        return ""
    moved = round(now.shown_deg - before.shown_deg, 6)
    if not moved:
        return tr("none", "of a change")
    # The errors themselves stand beside it in the row.
    error = Need(moved, hypot(before.margin_deg, now.margin_deg)).shown_margin_deg
    by = _sided(moved)
    return tr("{change}, unsure", change=by) if abs(moved) <= error else by


def _other_inputs(now: Setup, then: Setup | None, lengths: Lengths) -> Iterator[Row]:
    """What else of stance, mounts and boots differs."""
    if then is None:
        return
    if then.inputs.lead_foot != now.inputs.lead_foot:
        feet = tr(then.inputs.lead_foot), tr(now.inputs.lead_foot)
        yield Row(tr("Lead foot"), *feet, "", "")
    for field in differing(then.inputs, now.inputs):
        before, after = (each.inputs.value(field.name) for each in (then, now))
        if field.group in TOLD and abs(after - before) > 1e-9:
            difference = lengths.shown(abs(after - before), field.unit)
            sign = MINUS if after < before else "+"
            yield Row(
                field.label,
                _in_short(field, before, lengths),
                _in_short(field, after, lengths),
                f"{sign}{difference}",
                "",
            )


def _in_short(field: Field, value: float, lengths: Lengths) -> str:
    """A value in words, without what its label says already."""
    words = _IN_SHORT.get(field.signs) if field.signs else None
    shown = amount(abs(value), DEGREES)
    if words is None or shown == amount(0.0, DEGREES):
        return spoken(field, value, lengths)
    return tr(words[value < 0.0], angle=shown)


_IN_SHORT: Final = {
    IN_OUT: (msgid("{angle} inward"), msgid("{angle} outward")),
    TOE_HEEL: (msgid("{angle} toe"), msgid("{angle} heel")),
}
