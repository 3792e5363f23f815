"""In which words, and in which language?"""

from geo.texts.isolated import isolated as isolated
from geo.texts.languages import LANGUAGES as LANGUAGES
from geo.texts.languages import Language as Language
from geo.texts.languages import language_of as language_of
from geo.texts.lists import listed as listed
from geo.texts.phrases import language as language
from geo.texts.phrases import mark as mark
from geo.texts.phrases import phrase as phrase
from geo.texts.phrases import phrase_for as phrase_for
from geo.texts.phrases import phrase_of as phrase_of
from geo.texts.phrases import phrases as phrases
from geo.texts.phrases import speaking as speaking
