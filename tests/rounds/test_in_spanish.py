"""An order and its round are said in the language spoken, to the last sentence."""

from geo.rounds import labelled_materials, plan_spray_order
from geo.rounds.material_words import material_words, tank_words
from geo.rounds.mixing import mixing_notes
from geo.rounds.plan_round import plan_day_round
from geo.texts import speaking
from geo.windows import spray_windows
from tests.demo_run import demo_outcome
from tests.spoken import still_english


def test_the_sentences_of_the_demo_s_round_are_all_said_in_spanish() -> None:
    made = demo_outcome()
    farm, english = made.farm, made.spray
    with speaking("es"):
        windows = spray_windows(farm, made.season)
        order = plan_spray_order(farm, made.season, windows)
        planned = plan_day_round(farm, made.season, order, windows, hours=1.0)
        mixing = mixing_notes(planned.materials, farm.labels or ())
        labelled = labelled_materials(farm, made.season)
        materials = [material_words(one, 0, "panicle_mildew") for one in labelled]
    sentences = [
        *(words for one in order.entries for words in (one.reason, one.waiting, *one.cautions)),
        *(one.reason for one in (*order.cannot_now, *order.not_worth)),
        *order.notes,
        *(one.reason for one in planned.left_out),
        *planned.notes,
        *mixing,
        *materials,
    ]
    assert len(sentences) > len(farm.blocks)
    assert still_english(sentences, names=[one.name for one in farm.settings.sprayers]) == []
    assert [one.block for one in order.entries] == [one.block for one in english.entries]
    assert order.entries[0].waiting != english.entries[0].waiting


def test_a_tank_is_told_with_the_names_of_its_materials() -> None:
    with speaking("es"):
        assert tank_words(("sulfur", "mineral oil")) == "azufre con aceite mineral"
