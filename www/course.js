// The course as the record's, the class's and the refresher's pages hold it.

import { styled } from './apart.js';
import { WordedElement } from './worded.js';

/** @typedef {{ name: string, title: string, objectives: string[], questions: [string, number][], abroad?: boolean, originals?: string[] }} Lesson As the page holds it; objectives are counted from 1, `originals` are they in the language in which answers are kept. */
/** @typedef {{ lesson: Lesson, question: string, about: string, kept: string, href: string }} Card A question of the course, what it is about and how answers to it say that; `href` is where its objective stands. */

/** The way to a lesson's page; `abroad` it is there in the language of the originals only, whose pages stand above these. @param {Lesson} lesson */
export const wayTo = ({ name, abroad }) => `../${abroad ? '../' : ''}${name}/`;

/** The questions of the course, as the page holds them. @param {Element} at @returns {Card[]} */
export function cardsOf(at) {
  /** @type {Lesson[]} */
  const lessons = JSON.parse(at.querySelector('script[type="application/json"]')?.textContent ?? '[]');
  return lessons.flatMap(lesson => lesson.questions.map(([question, number]) => ({
    lesson, question, about: lesson.objectives[number - 1] ?? '', kept: (lesson.originals ?? lesson.objectives)[number - 1] ?? '', href: `${wayTo(lesson)}#objective-${number}`,
  })));
}

/** An element over the course and what is kept of answers to it. */
export class CourseElement extends WordedElement {
  /** @type {Card[]} */ cards = [];

  /** Takes on course, style and words; whether these are there: where they are not, the page says so. @param {...string} parts */
  async prepared(...parts) {
    styled('record.css');
    this.cards = cardsOf(this);
    return this.awaited(this.learn(...parts)).then(() => true, () => false);
  }
}
