// The program's JavaScript, which the build makes; its classes are written down in crate/widget.
declare module '*/outlean.js' {
  export default function begin(from: { module_or_path: Response }): Promise<unknown>;
  export const RigFigure: new (rig: unknown, words: Record<string, string>) => any;
  export const Asked: new (template: unknown, words: Record<string, string>, seed: number) => any;
  export const Estimate: new (template: unknown, words: Record<string, string>, seed: number) => any;
}
