"""How many examples a property is tried with where the profile of conftest.py is too many."""

from hypothesis import HealthCheck, settings

#: For what takes a second or so for a hundred examples.
SOME = settings(max_examples=40)
#: For what runs a whole command, a search or a simulation.
FEW = settings(max_examples=12)
#: The same for a test whose fixtures serve all examples.
FEW_OF_A_FIXTURE = settings(FEW, suppress_health_check=[HealthCheck.function_scoped_fixture])
