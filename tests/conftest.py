"""Laws are looked for alike on every machine: no test depends on a clock or on chance.

`pytest --hypothesis-profile=search` looks elsewhere each time instead.
"""

from hypothesis import HealthCheck, settings

settings.register_profile(
    "gate", deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow]
)
settings.register_profile(
    "search", deadline=None, print_blob=True, suppress_health_check=[HealthCheck.too_slow]
)
settings.load_profile("gate")
