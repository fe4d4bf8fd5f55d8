// What the scripts say stands in the page, in the reader's language: templates/phone/says.html.

const told = (key) => document.getElementById("says").content.querySelector(`[data-says="${key}"]`);

/** A sentence with its blanks filled in. */
export const says = (key, blanks = {}) =>
  Object.entries(blanks).reduce((text, [name, value]) => text.replaceAll(`{${name}}`, value), told(key).textContent);

/** A sentence about a number of things, in the form that the language wants. */
export function counted(key, count) {
  const form = new Intl.PluralRules(document.documentElement.lang).select(count);
  return says(told(`${key}-${form}`) ? `${key}-${form}` : `${key}-other`, { count });
}

/** When something was, short: the time, and the day unless it is today's. */
export function when(at) {
  const date = new Date(at);
  const today = date.toDateString() === new Date().toDateString();
  const day = today ? {} : { day: "numeric", month: "short" };
  return date.toLocaleString(document.documentElement.lang, { hour: "2-digit", minute: "2-digit", hourCycle: "h23", ...day });
}
