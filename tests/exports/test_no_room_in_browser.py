"""A page in a frame that is not shown yet, or that has next to no room, opens once it has some."""

from pathlib import Path

import pytest

from tests.exports.conftest import DESK, PHONE, Open

BLOCK_IN_SIGHT = """() => {
  const { map, outlines } = mangoPage.app;
  const [x, y] = mangoPage.wholeBox(outlines);
  const corner = map.latLngToContainerPoint(map.unproject([x, y], 0));
  const { clientWidth, clientHeight } = map.getContainer();
  return corner.x > 0 && corner.x < clientWidth && corner.y > 0 && corner.y < clientHeight;
}"""


def test_a_page_in_a_hidden_frame_shows_its_map_once_the_frame_is_shown(
    open_page: Open, map_file: Path, tmp_path: Path
) -> None:
    around = tmp_path / "around.html"
    around.write_text(
        f"<!doctype html><html data-painted><title>Around</title><iframe src='{map_file.as_uri()}' "
        "style='display: none; width: 800px; height: 700px'></iframe>x</html>"
    )
    page = open_page(path=around)
    page.frames[1].wait_for_load_state()
    page.evaluate("document.querySelector('iframe').style.display = 'block'")
    inner = page.frames[1]
    inner.wait_for_selector("html[data-painted]")
    inner.wait_for_function(BLOCK_IN_SIGHT)
    assert inner.locator(".paper").is_hidden()


@pytest.mark.parametrize("size", [DESK, PHONE])
def test_a_window_of_next_to_no_size_leaves_the_map_as_it_was(
    open_page: Open, size: dict[str, int]
) -> None:
    page = open_page(size=size)
    page.evaluate("mangoPage.app.choose(0, 'list')")
    page.set_viewport_size({"width": 1, "height": 1})
    page.evaluate("new Promise((done) => requestAnimationFrame(() => setTimeout(done, 100)))")
    page.set_viewport_size(size)
    page.wait_for_function(BLOCK_IN_SIGHT)
