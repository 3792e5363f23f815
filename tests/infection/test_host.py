"""How susceptible a mixture of cultivars is."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.infection.host import block_susceptibility, cultivar_shares
from geo.reference.cultivars import cultivar, cultivars


def test_shares_are_read_as_the_season_carries_them() -> None:
    assert cultivar_shares("Nam Dok Mai:0.25; Tommy Atkins:0.75") == {
        "Nam Dok Mai": 0.25,
        "Tommy Atkins": 0.75,
    }
    assert cultivar_shares("a:b:1") == {"a:b": 1.0}


def test_a_single_cultivar_is_its_own_rating() -> None:
    kent = cultivar("Kent")
    assert block_susceptibility({"Kent": 1.0}) == pytest.approx((kent.susceptibility, kent.doubt))


@given(name=st.sampled_from(sorted(cultivars())), share=st.floats(0.0, 1.0))
def test_a_mixture_lies_between_its_parts(name: str, share: float) -> None:
    parts = cultivar(name).susceptibility, cultivar("Keitt").susceptibility
    mean, doubt = block_susceptibility({name: share, "Another tree": 0.0, "keitt": 1.0 - share})
    assert min(parts) - 1e-12 <= mean <= max(parts) + 1e-12
    assert 0.0 < doubt <= max(cultivar(name).doubt, cultivar("Keitt").doubt) + 1e-12


def test_a_mixture_is_less_doubtful_than_either_half() -> None:
    _, doubt = block_susceptibility({"Irwin": 0.5, "Osteen": 0.5})
    assert doubt == pytest.approx(cultivar("Irwin").doubt / np.sqrt(2.0))


@pytest.mark.common_practice("a more resistant cultivar is never at more risk: no source")
def test_more_of_the_more_susceptible_cultivar_is_never_less_susceptible() -> None:
    shares = np.linspace(0.0, 1.0, 6)
    means = [block_susceptibility({"Alphonso": s, "Chino": 1.0 - s})[0] for s in shares.tolist()]
    assert (np.diff(means) > 0.0).all()
