// A language that nobody speaks, made of English as a test runs: every vowel twice and with an accent, an e three times, so
// that texts are four tenths longer, and a plain word on a page is one that stands in no file of words.

/** @type {Record<string, string>} */
const ACCENTED = { a: 'áá', e: 'ééé', i: 'íí', o: 'óó', u: 'úú', y: 'ýý', A: 'Áá', E: 'Ééé', I: 'Íí', O: 'Óó', U: 'Úú' };

/** A text in it; what stands in braces stays. @param {string} text */
export const pseudo = text => text.replace(/\{[^{}]*\}|[aeiouyAEIOU]/g, part => ACCENTED[part] ?? part);

/** A file of words in it. @param {string} json */
export const pseudoWords = json => JSON.stringify(Object.fromEntries(Object.entries(JSON.parse(json)).map(([key, text]) => [key, pseudo(String(text))])));

/** What of a block of a lesson is words. */
const WORDS = /^(asks|says|hint|explanation|source|because|hold) = "(.*)"$/;

/** A lesson in it: its prose and the words of its blocks; links lead nowhere else. @param {string} lesson */
export function pseudoLesson(lesson) {
  let block = '';
  /** @type {string[]} Conditions of a setting, which claims would say in English. */
  let until = [];
  return lesson.split('\n').flatMap(line => {
    const fence = line.match(/^(```|\+\+\+)(\w*)$/);
    if (fence) {
      block = block && !fence[2] ? '' : fence[2] || 'front';
      return [line];
    }
    if (block === 'front') return [line.replace(/"(.*)"/, (_, text) => `"${pseudo(text)}"`)];
    if (block && block !== 'notes') {
      const [, key, text] = line.match(WORDS) ?? [];
      if (key) return [`${key} = "${pseudo(text)}"`];
      if (!line.startsWith('until = ')) return [line];
      until = [...line.matchAll(/"([^"]*)"/g)].map(([, claim]) => `"${pseudo(claim)}"`);
      return [line, `says = [${until.join(', ')}]`];
    }
    return [pseudo(line.replace(/\[([^\]]*)\]\([^)]*\)/g, '$1'))];
  }).join('\n');
}

/** The plain words, of three letters or more, in a text. @param {string} text */
export const plainWords = text => [...text.matchAll(/(?<![\p{L}\p{N}_])[A-Za-z]{3,}(?![\p{L}\p{N}_])/gu)].map(([word]) => word);
