"""What the command line says of spraying one block."""

from dataclasses import replace

from geo.cli.spray_lines import material_lines, waiting_lines
from geo.rounds.material_words import NEED_LABELS
from tests.demo_run import demo_outcome


def test_each_list_has_its_line() -> None:
    spray = demo_outcome().spray
    first, rest, held = spray.entries[0], spray.not_worth[0], spray.cannot_now[0]
    assert list(waiting_lines(spray, first.block)) == [
        f"{first.block}. Spray order No. 1. {first.waiting}"
    ]
    assert list(waiting_lines(spray, rest.block)) == [
        f"{rest.block}. Not worth it now: {rest.reason}"
    ]
    assert list(waiting_lines(spray, held.block)) == [f"{held.block}. Cannot now: {held.reason}"]
    assert list(waiting_lines(spray, "nowhere")) == []


def test_each_labelled_material_has_its_line_or_the_file_is_asked_for() -> None:
    demo = demo_outcome()
    block = demo.spray.entries[0].block
    head, *lines = material_lines(demo, block, "panicle_mildew")
    assert head == f"What could be sprayed in {block}, from your own label file:"
    assert len(lines) == len(demo.farm.labels or ())
    assert all(line.endswith("Check the label.") for line in lines)
    bare = replace(demo, farm=replace(demo.farm, labels=None), materials=())
    assert list(material_lines(bare, block, "panicle_mildew")) == [NEED_LABELS]
    empty = replace(demo, materials=())
    assert list(material_lines(empty, block, "panicle_mildew")) == []
