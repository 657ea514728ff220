// Made by tests/contracts.mjs out of what stands with the elements in www.

export type Action = {
    kind: string;
    key?: string;
    value?: number;
    word?: string;
};
export type SliderView = {
    key: string;
    name: string;
    text: string;
    spoken: string;
    now: number;
    least: number;
    most: number;
    page: number;
};
export type ChoiceView = {
    key: string;
    name: string;
    now: string;
    options: [string, string][];
};
export type Row = {
    key: string;
    name: string;
    carries: string;
    allowable: string;
    used: string;
    ratio?: number;
    governs: boolean;
    demand: number;
};
export type Verdict = {
    sign: 'in' | 'at' | 'out' | 'not_assessed';
    is: string;
    why: string;
};
export type Piece = {
    kind: 'text' | 'slider' | 'choice';
    is: string;
};
export type Named = {
    key: string;
    name: string;
    value: string;
};
export type View = {
    sentence: Piece[];
    sentence_text: string;
    verdict: Verdict;
    covers: string;
    sliders: SliderView[];
    choices: ChoiceView[];
    rows: Row[];
    more: Named[];
    veiled: boolean;
    playing: boolean;
    reduced: boolean;
    slow: boolean;
    halted: boolean;
    undo: boolean;
    redo: boolean;
};

/** A frame that can be leaned. Between its tags, or where `src` names it, a `<script type="application/json">` holds the rig in SI by the keys of rig files, as the native program writes it. */
export interface RigElement extends HTMLElement {
  /** Does an action, as hand and key do: the one way in. */
  act(action: Action): void;
  /** Shows the forces: a prediction is locked in, or none is asked. */
  reveal(): void;
  /** The rig shown: its values in SI, by the keys of rig files; `undefined` before it has started. One that cannot be computed is refused in words under the keys, and the one before it stays. */
  rig: Record<string, number | string> | undefined;
  /** What is said of the rig now, in the units of the element; `undefined` before it has started. */
  readonly told: View | undefined;
}

/** A number is predicted, locked in, and then shown with what the prediction would have meant. */
export interface EstimateElement extends HTMLElement {
  /** The question and its answer, and whether it is still open: for who leads the lesson. */
  readonly known: { prompt: string, answer: string, open: boolean } | undefined;
  /** Shows the answer without one of the learner's. */
  reveal(): void;
  /** The seed of the question shown. */
  readonly seed: number;
}

/** A list whose entries are marked as true or not. */
export interface ChooseElement extends HTMLElement {
  /** The question and its answer, and whether it is still open: for who leads the lesson. */
  readonly known: { prompt: string, answer: string, open: boolean } | undefined;
  /** Shows the answer without one of the learner's. */
  reveal(): void;
  /** The seed of the question shown. */
  readonly seed: number;
}

/** Faults are found in what is described. */
export interface FaultsElement extends HTMLElement {
  /** The question and its answer, and whether it is still open: for who leads the lesson. */
  readonly known: { prompt: string, answer: string, open: boolean } | undefined;
  /** Shows the answer without one of the learner's. */
  reveal(): void;
  /** The seed of the question shown. */
  readonly seed: number;
}

/** Steps that are put in order: each moves by its keys, by the arrow keys, or by a drag. */
export interface OrderElement extends HTMLElement {
  /** The question and its answer, and whether it is still open: for who leads the lesson. */
  readonly known: { prompt: string, answer: string, open: boolean } | undefined;
  /** Shows the answer without one of the learner's. */
  reveal(): void;
  /** The seed of the question shown. */
  readonly seed: number;
}

/** The controls of a figure are moved until something holds. */
export interface SetElement extends HTMLElement {
  /** The question and its answer, and whether it is still open: for who leads the lesson. */
  readonly known: { prompt: string, answer: string, open: boolean } | undefined;
  /** Shows the answer without one of the learner's. */
  reveal(): void;
  /** The seed of the question shown. */
  readonly seed: number;
}

declare global {
  interface HTMLElementTagNameMap {
    'outlean-rig': RigElement;
    'outlean-estimate': EstimateElement;
    'outlean-choose': ChooseElement;
    'outlean-faults': FaultsElement;
    'outlean-order': OrderElement;
    'outlean-set': SetElement;
  }
  interface HTMLElementEventMap {
    /** It cannot start, and says why in its place: `absent`, `fetch`, `type`, `forbidden`, `compile`, `version`, `words`, `style`, `canvas`, `attribute`, `src`, `content`, `rig`, `question` or `other`; or `late`: it may yet start. */
    'outlean-failed': CustomEvent<{ cause: string }>;
    /** It is drawn: once each time that it starts. */
    'outlean-ready': CustomEvent<null>;
    /** It came to rest after a change; `lean` in rad from the vertical, forward. */
    'outlean-rest': CustomEvent<{ lean: number }>;
    /** It says something else than before: what `told` holds. */
    'outlean-told': Event;
    /** An answer was marked: once for each. `share` is from 0 to 1; `seconds` since the question was put. */
    'outlean-marked': CustomEvent<{ seed: number, typed: string, verdict: string, share: number, seconds: number, hints: number }>;
  }
}
