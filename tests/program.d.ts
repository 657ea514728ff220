// The program's JavaScript, which the build makes; its classes are written down in crate/widget, crate/refresher and crate/class.
declare module '*/outlean.js' {
  export default function begin(from: { module_or_path: Response }): Promise<unknown>;
  export const RigFigure: new (rig: unknown, words: Record<string, string>) => any;
  export const Asked: new (template: unknown, words: Record<string, string>, seed: number) => any;
  export const Estimate: new (template: unknown, words: Record<string, string>, seed: number) => any;
}
declare module '*/planner.js' {
  export default function begin(from: { module_or_path: Promise<Response> }): Promise<unknown>;
  export const Planner: new (words: string[], picture: string[]) => any;
}
declare module '*/refresher.js' {
  export default function begin(from: { module_or_path: Promise<Response> }): Promise<unknown>;
  export const Refresher: { new (): any; length(): number; pass(): number };
}
declare module '*/class.js' {
  export default function begin(from: { module_or_path: Promise<Response> }): Promise<unknown>;
  export const ClassTable: { new (): any; pass(): number; passes(share: number): boolean };
}
