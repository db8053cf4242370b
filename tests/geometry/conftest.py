"""How hypothesis looks for trouble here."""

from hypothesis import HealthCheck, settings

settings.register_profile(
    "geometry",
    # A shared machine may pause anywhere.
    deadline=None,
    # About half of all slider positions have no posture: to be thrown away where a
    # test is about postures.
    suppress_health_check=[HealthCheck.filter_too_much, HealthCheck.too_slow],
)
settings.load_profile("geometry")
