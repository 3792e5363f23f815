"""Plain sentences about waiting."""

from datetime import datetime

from geo.reference.diseases import disease_with
from geo.rounds.loss_words import not_worth_words, waiting_words

NEXT, END = datetime.fromisoformat("2026-02-09T06:00"), datetime.fromisoformat("2026-02-12")


def words(**other: object) -> str:
    given = {
        "avoidable": 0.5, "unsprayed": 1.0, "protection": 0.2, "line": 0.3,
        "materials": ("copper", "mineral oil"), "disease": disease_with("panicle_mildew"),
        "next_window": NEXT, "end": END,
    }  # fmt: skip
    return not_worth_words(**(given | other))


def test_a_block_that_a_spray_helps_gets_no_sentence() -> None:
    assert words() == ""
    assert words(avoidable=0.0051) == ""


def test_each_reason_has_its_sentence() -> None:
    until = "until it is next open, Mon 9 Feb 06:00"
    assert words(protection=0.31) == (
        f"Its sprays still prevent 0.31 or more {until}, above the reapply line of 0.30."
    )
    assert words(avoidable=0.004) == (
        "Copper with mineral oil would avoid next to nothing of powdery mildew on panicles "
        f"{until}."
    )
    assert words(unsprayed=0.0, avoidable=0.0) == f"No hazard is expected {until}."


def test_a_forecast_that_ends_first_is_said() -> None:
    said = waiting_words((0.0, 0.014, 2.0), per_hour=None, next_window=None, end=END)
    assert said == (
        "Not open again within the forecast: left until its end, Thu 12 Feb 00:00, it loses 0.014 "
        "hectare-days of index 1 (0 to 2.0) that a spray today would avoid."
    )
