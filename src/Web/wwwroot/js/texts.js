// What scripts say to the reader, in her language: the page carries the translations in its head, the scripts the English.
// First of the scripts, so that all others, modules too, find t and n.

const translations = JSON.parse(document.querySelector('meta[name=texts]')?.content ?? '{}');
const inPlaces = (text, values) => text.replace(/\{(\d)\}/g, (_, place) => values[place]);

/** A text: t('{0} of {1}', done, all). */
function t(english, ...values) {
  return inPlaces(translations[english] ?? english, values);
}

/** A text whose form hangs on a number: n(count, '{0} piece|{0} pieces', count). */
function n(number, english, ...values) {
  const forms = (translations[english] ?? english).split('|');
  const rules = new Intl.PluralRules(translations[english] ? document.documentElement.lang : 'en');
  // In the order of Plurals.cs.
  const order = ['one', 'few', 'many', 'other'].filter((form) => rules.resolvedOptions().pluralCategories.includes(form));
  return inPlaces(forms[Math.min(order.indexOf(rules.select(number)), forms.length - 1)], values);
}
