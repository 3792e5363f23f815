"""What the made people of the farm wrote down: sprays and looks."""

from layers_demo.valley_outlines import BLOCKS

Lines = list[tuple[str, ...]]

DIARY_HEADER = ("date", "time", "block_id", "material", "frac_code", "note")
FLOOR = "B01;B02;B03;B04;B05;B06;B07"
BENCH = "B08;B09;B10;B11;B12;B13"
TERRACE = "B14;B15;B16;B17;B18"
SHOULDER = "B19;B20;B21"
SPUR = "B22;B23;B24"
DIARY: Lines = [
    ("2026-01-12", "06:30", FLOOR, "copper", "M01", "before bud burst"),
    ("2026-01-13", "06:45", f"{BENCH};{TERRACE}", "copper", "M01", "before bud burst"),
    ("2026-01-21", "06:15", FLOOR, "sulfur", "M02", "first of the bloom round"),
    ("2026-01-22", "06:30", BENCH, "sulfur", "M02", "first of the bloom round"),
    ("2026-01-23", "", TERRACE, "sulfur", "M02", ""),
    ("2026-01-25", "07:00", SHOULDER, "sulfur", "M02", ""),
    ("2026-01-26", "06:30", SPUR, "copper", "M01", "ahead of the rain"),
    ("2026-01-31", "06:20", "B01;B02;B03;B04", "myclobutanil", "3", "after the rain"),
    ("2026-01-31", "09:40", "B05;B06", "sulfur", "M02", "after the rain"),
    ("2026-02-01", "06:40", "B08;B09;B10", "myclobutanil", "3", "after the rain"),
    ("2026-02-02", "06:40", "B14;B15;B18", "sulfur", "M02", ""),
    ("2026-02-05", "06:30", "B22;B24", "azoxystrobin", "11", "mildew seen on the spur"),
    ("2026-02-08", "06:10", "B01;B04", "sulfur", "M02", "day before the shower"),
    ("2026-02-10", "06:25", "B02;B03;B06", "azoxystrobin", "11", ""),
    ("2026-02-11", "06:30", "B10;B11", "sulfur", "M02", ""),
    ("2026-02-12", "07:15", "B14;B18", "myclobutanil", "3", ""),
    ("2026-02-14", "06:05", "B05", "sulfur", "M02", ""),
    ("2026-02-16", "06:20", "B22", "sulfur", "M02", ""),
    ("2026-02-20", "06:00", "B08;B09;B12;B13", "sulfur", "M02", "planned"),
]

# Made facts on made labels: nobody may spray by them.
LABELS_HEADER = (
    "material", "frac_codes", "re_entry_hours", "pre_harvest_days", "season_maximum",
    "minimum_interval_days", "country", "label_date",
)  # fmt: skip
LABELS: Lines = [
    ("sulfur", "M02", "24", "0", "none", "7", "made example", "2025-06-01"),
    ("copper", "M01", "48", "0", "6", "10", "made example", "2025-06-01"),
    ("myclobutanil", "3", "24", "14", "3", "14", "made example", "2025-06-01"),
    ("azoxystrobin", "11", "4", "7", "2", "14", "made example", "2025-06-01"),
]

SCOUTING_HEADER = ("date", "block_id", "inspected", "infected", "stage", "note")
SCOUTING: Lines = [
    ("2026-01-28", "B06", "100", "2", "513:0.5;514:0.5", "wet, no colour on the axes yet"),
    ("2026-01-29", "B02", "100", "3", "514", ""),
    ("2026-01-30", "B10", "100", "4", "514:0.6;515:0.4", "first white axes low in the bowl"),
    ("2026-01-30", "B22", "60", "4", "515", ""),
    ("2026-02-02", "B01", "120", "3", "514:0.7;515:0.3", ""),
    ("2026-02-03", "B14", "80", "2", "514", ""),
    ("2026-02-04", "B24", "80", "6", "515:0.4;517:0.6", ""),
    ("2026-02-06", "B08", "100", "0", "515", ""),
    ("2026-02-07", "B12", "100", "0", "513:0.3;514:0.7", ""),
    ("2026-02-09", "B03", "150", "9", "517:0.5;519:0.5", "shower in the afternoon"),
    ("2026-02-09", "B18", "100", "5", "515:0.3;517:0.7", ""),
    ("2026-02-10", "N1", "50", "17", "", "seen from the track, untended"),
    ("2026-02-11", "B04", "120", "4", "515:0.2;517:0.8", ""),
    ("2026-02-11", "B05", "100", "1", "517", ""),
    ("2026-02-12", "B06", "150", "14", "517:0.3;519:0.7", ""),
    ("2026-02-12", "B07", "100", "2", "514:0.4;515:0.6", ""),
    ("2026-02-12", "B09", "100", "2", "517:0.6;519:0.4", ""),
    ("2026-02-13", "B11", "80", "1", "515", ""),
    ("2026-02-13", "B13", "100", "0", "513:0.8;514:0.2", "late bench"),
    ("2026-02-13", "B15", "60", "1", "617:0.5;619:0.5", ""),
    ("2026-02-14", "B16", "100", "2", "519:0.5;610:0.5", ""),
    ("2026-02-14", "B17", "", "", "611", "stage only, no time to count"),
    ("2026-02-14", "B19", "50", "0", "701", "past bloom, pea-sized fruit"),
    ("2026-02-15", "B23", "100", "3", "519:0.4;610:0.6", ""),
    ("2026-02-15", "B24", "100", "13", "611:0.5;613:0.5", ""),
    ("2026-02-16", "B01", "150", "8", "517:0.2;519:0.8", ""),
    ("2026-02-16", "B02", "150", "11", "519:0.4;610:0.6", "worst beside the pond"),
    ("2026-02-16", "B10", "200", "24", "611:0.4;613:0.6", "white on every tenth panicle"),
    ("2026-02-16", "B14", "120", "7", "611:0.5;613:0.5", ""),
    ("2026-02-17", "B12", "100", "1", "515:0.6;517:0.4", ""),
    ("2026-02-17", "B18", "120", "9", "613:0.4;615:0.6", ""),
    ("2026-02-17", "B22", "120", "16", "615:0.7;617:0.3", "drying up on the upper side"),
    ("2026-02-17", "B20", "", "", "613", "stage only"),
]

FOLDER_READ_ME = f"""# A made farm

Made Valley Farm does not exist. This folder is a made scenario for trying the program out: no real
farm, no real people, no real weather, no real ground. `python -m layers_demo.make_valley_farm`
writes it again from fixed seeds.

| file | what is in it |
|---|---|
| `farm.toml` | names the files and the farm's settings; every key is explained there |
| `blocks.geojson` | {len(BLOCKS)} blocks: id, name, cultivars, planting year, mildew last season |
| `neighbours.geojson` | two orchards next door, one of them untended |
| `places.geojson` | tracks, gates, shed, filling point, weather station, a house, hives |
| `elevation.tif` | ground in metres, 8 m cells |
| `station.csv` | 45 days and a dawn of hourly weather, wind at 2 m |
| `forecast.csv` | the hours after that, wind at 10 m |
| `diary.csv` | sprays by active ingredient; the last line is only planned |
| `labels.csv` | what made labels say of four materials: made facts, never to spray by |
| `scouting.csv` | panicles looked at and found with mildew, and stages (BBCH) |

What to look for: seven blocks on the valley floor are warm by day and cool by night, so a heat
limit can close them to sulfur while the benches stay open. B10 and B18 lie in hollows. B01 and B04
are next to untended trees. B02 lies around a pond, B09 on both sides of a track. B21 was never
looked at, B19 is past bloom, and the bench has not been sprayed for weeks.
"""
