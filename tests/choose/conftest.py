import pytest

from woodref.choose import background, rank, substitute
from woodref.choose.candidates import candidates_connection

TABLES = {}


def shared(
    reference, seasonal_range=None, prices_per_m3=None, buyable=None, also=(), known_alone=False
):
    if reference.uses_own:
        return candidates_connection(reference, seasonal_range, prices_per_m3, buyable, also)
    prices = tuple(sorted((prices_per_m3 or {}).items()))
    key = (reference.store.folder, seasonal_range, prices, buyable, also)
    if key not in TABLES:
        TABLES[key] = candidates_connection(reference, seasonal_range, prices_per_m3, buyable, also)
    return TABLES[key].cursor()


@pytest.fixture(autouse=True, scope="module")
def one_table_of_woods():
    """The table of woods to choose from, made once for the same year and the same prices.

    What a test is given is a connection of its own to it, which may be closed, and whose
    temporary tables nobody else sees. Figures of the shop's own are always read anew.
    """
    with pytest.MonkeyPatch.context() as patch:
        for module in (background, rank, substitute):
            patch.setattr(module, "candidates_connection", shared)
        yield
