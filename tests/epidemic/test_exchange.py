"""Spores between all pairs."""

import numpy as np

from geo.epidemic.exchange import DenseExchange
from tests.epidemic.made import on_a_line


def test_home_and_incoming_make_up_all_that_arrives() -> None:
    exchange = on_a_line()
    shed = np.linspace(0.0, 0.6, exchange.share.shape[1])
    home, incoming = exchange.received(shed)
    np.testing.assert_allclose(home + incoming, exchange.share @ shed)
    np.testing.assert_allclose(home, 0.4 * shed[: home.size])


def test_a_lone_block_receives_only_its_own() -> None:
    home, incoming = DenseExchange(np.array([[0.3]])).received(np.array([0.1]))
    assert (home.tolist(), incoming.tolist()) == ([0.03], [0.0])


def test_each_kind_of_array_is_taken(as_array) -> None:
    home, incoming = DenseExchange(as_array([[0.5, 0.25]])).received(as_array([0.5, 1.0]))
    assert (home.tolist(), incoming.tolist()) == ([0.25], [0.25])
