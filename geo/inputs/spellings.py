"""By which other names do people call our columns? A heading is matched whole, never in part."""

import re
import unicodedata
from dataclasses import dataclass

from geo.inputs.units import parted

# Our column's name without its unit, the quantity its unit measures, and the unit we take.
QUANTITIES = {
    "air_temperature_degC": ("temperature", "degC"),
    "relative_humidity_percent": ("humidity", "percent"),
    "wind_speed_m_s": ("speed", "m_s"),
    "precipitation_mm": ("depth", "mm"),
    "cloud_cover_fraction": ("share", "fraction"),
    "wind_from_direction_degree": ("angle", "degree"),
    "air_temperature_min_degC": ("temperature", "degC"),
    "air_temperature_max_degC": ("temperature", "degC"),
    "dew_point_degC": ("temperature", "degC"),
    "relative_humidity_min_percent": ("humidity", "percent"),
    "relative_humidity_max_percent": ("humidity", "percent"),
}
# Words of English, Spanish, Portuguese, French and Hindi farm books (common practice, no source).
_SPELLINGS = {
    "air_temperature_degC": "air temperature|temperature|temp|air temp|t air|tair|t|temp out|"
    "outside temperature|temperature 2m|temperatura|temperatura del aire|température|tmean",
    "relative_humidity_percent": "relative humidity|humidity|rh|hum|rel hum|out hum|"
    "outside humidity|relative humidity 2m|humedad relativa|humedad|hr|umidade relativa|humidité|"
    "humid",
    "wind_speed_m_s": "wind speed|wind|windspeed|ws|wind avg|average wind speed|wind speed 10m|"
    "velocidad del viento|viento|vento|vent|velocidade do vento",
    "precipitation_mm": "precipitation|rain|rainfall|rain amount|precip|ppt|prcp|lluvia|"
    "precipitación|chuva|pluie|hourly rain",
    "cloud_cover_fraction": "cloud cover|cloud|clouds|cloudiness|nubosidad|cloudcover",
    "wind_from_direction_degree": "wind from direction|wind direction|wind dir|winddir|"
    "dirección del viento|wd",
    "air_temperature_min_degC": "air temperature min|minimum temperature|min temperature|temp min|"
    "min temp|tmin|t min|temperature minimum|temperatura mínima|minimum air temperature",
    "air_temperature_max_degC": "air temperature max|maximum temperature|max temperature|temp max|"
    "max temp|tmax|t max|temperature maximum|temperatura máxima|maximum air temperature",
    "dew_point_degC": "dew point|dewpoint|dew point temperature|td|tdew|mean dew point|"
    "punto de rocío",
    "relative_humidity_min_percent": "relative humidity min|minimum humidity|rh min|rhmin|"
    "min rh|min humidity|humedad mínima",
    "relative_humidity_max_percent": "relative humidity max|maximum humidity|rh max|rhmax|"
    "max rh|max humidity|humedad máxima",
    "time": "time|timestamp|date time|datetime|date and time|date time local|hour|fecha hora|"
    "fecha y hora|hora|data hora|valid time|local time",
    "date": "date|day|fecha|datum|data|spray date|date sprayed|application date|दिनांक|तारीख",
    "block_id": "block id|block|blocks|block no|block number|blk|plot|lot|field|paddock|bloque|"
    "lote|parcela|cuartel|talhão|parcelle|id|ब्लॉक",
    "neighbour_id": "neighbour id|neighbor id|neighbour|neighbor|id|vecino",
    "material": "material|product|active ingredient|active|chemical|fungicide|a i|ai|producto|"
    "ingrediente activo|materia activa|produto|produit|दवा",
    "inspected": "inspected|n inspected|looked at|checked|sample size|n|inspeccionadas|revisadas|"
    "examined|panicles inspected|fruit inspected",
    "infected": "infected|n infected|diseased|with disease|infectadas|enfermas|positive|"
    "panicles infected|fruit infected",
    "infected_percent": "infected percent|infected share|incidence|incidencia|disease incidence",
    "stage": "stage|bbch|growth stage|bbch stage|etapa|estado fenológico",
    "disease": "disease|pathogen|enfermedad|doença|maladie",
    "cultivar": "cultivar|variety|varieties|cv|variedad|variedade|variété|kind of mango",
    "planted": "planted|year planted|planting year|plant year|año de plantación|ano de plantio",
    "area_ha": "area ha|area|hectares|ha|superficie|área|written area",
    "note": "note|notes|remark|remarks|comment|comments|observaciones|nota",
    "start": "start|from|begin|start time|inicio",
    "end": "end|until|to|end time|finish|fin",
}
_SEPARATORS = re.compile(r"[\s_\-./:,]+")


@dataclass(frozen=True, slots=True)
class Heading:
    """
    How a heading is understood.

    Attributes
    ----------
    written : str
        As it stands in the file; empty for a column that is not there.
    means : str
        Our column; empty for one that is not used.
    unit : str
        Our name of its unit; empty for columns without one.
    how : str
        "as named", "by its spelling", "by the column map" or "not used".
    """

    written: str
    means: str
    unit: str
    how: str


def flat(text: str) -> str:
    """
    Return a heading for comparison: without case, accents, marks between words, double blanks.

    Parameters
    ----------
    text : str
        As written.

    Returns
    -------
    str
        Words with single blanks between.

    Examples
    --------
    >>> flat(" Wind_Speed - avg. "), flat("Fenológico")
    ('wind speed avg', 'fenologico')
    """
    parts = unicodedata.normalize("NFKD", text).casefold()
    words = "".join(sign for sign in parts if unicodedata.category(sign) != "Mn")
    return " ".join(_SEPARATORS.sub(" ", words).split())


SPELLINGS = {
    column: tuple(flat(word) for word in words.split("|")) for column, words in _SPELLINGS.items()
}


def meant(heading: str, wanted: tuple[str, ...]) -> tuple[str, str]:
    """
    Return which wanted column a heading means by its spelling.

    Parameters
    ----------
    heading : str
        As written.
    wanted : tuple of str
        Our columns, those that come first before the others.

    Returns
    -------
    tuple of str
        The column and our name of the unit written in the heading; empty where there is none.

    Examples
    --------
    >>> meant("Temp (°F)", ("time", "air_temperature_degC"))
    ('air_temperature_degC', 'degF')
    >>> meant("colour", ("time",))
    ('', '')
    """
    name, unit = parted(heading)
    for column in wanted:
        words = SPELLINGS.get(column, ())
        if flat(name) in words:
            return column, unit
    return "", ""
