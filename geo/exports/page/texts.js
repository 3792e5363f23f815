/* Sentences in the language of the page: those of the scripts are English, others come with it. */
(function (page) {
  "use strict";

  const CONTEXT = "\u0004";
  const own = document.getElementById("texts");
  const texts = own ? JSON.parse(own.textContent) : { plural: {}, sentences: {} };
  const tongue = document.documentElement.lang;
  const rule = new Intl.PluralRules(tongue);

  page.isRightToLeft = document.documentElement.dir === "rtl";
  // Letters of scripts that are written from right to left; in such a page, whatever is put in.
  const OTHER_WAY =
    page.isRightToLeft
      ? /./
      : /[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc\u{10800}-\u{10fff}\u{1e800}-\u{1efff}]/u;

  /* Between marks that keep a text from changing the order of the words round it. */
  page.isolated = (text) => (OTHER_WAY.test(text) ? "\u2068" + text + "\u2069" : String(text));

  /* Values stand in braces. What a value holds is never read again. */
  const filled = (said, values) =>
    values
      ? said.replace(/\{(\w+)\}/g, (brace, name) => (name in values ? page.isolated(values[name]) : brace))
      : said;

  const forms = (key) => (Object.hasOwn(texts.sentences, key) ? texts.sentences[key] : null);

  page.phrase = (text, values) => filled((forms(text) || [text])[0], values);

  /* For words that mean several things, or agree with what they tell of. */
  page.phraseFor = (whom, text, values) => filled((forms(whom + CONTEXT + text) || [text])[0], values);

  page.phrases = function (one, many, count, values) {
    const found = forms(one);
    const place = texts.plural[rule.select(count)] ?? (found ? found.length - 1 : 0);
    return filled(found ? found[place] : count === 1 ? one : many, { count, ...values });
  };
})((window.mangoPage = window.mangoPage || {}));
