/** One thing the Python core says, with its reasons. */
export interface Reason {
  words: string;
  sources: string[];
}
export interface Assumption {
  key: string;
  value: number;
  unit: string;
  meaning: string;
}
export interface Said {
  code: string;
  words: string;
  how_sure: string;
  because: Reason[];
  settle: string[];
  by: string | null;
  sources: string[];
  assumptions: Assumption[];
}
