import type { BriefWords } from "./brief-words.ts";
import { english } from "./words/english.ts";
import { spanish } from "./words/spanish.ts";

/** The languages a brief is written in, and what each is called in itself. */
export const BRIEF_LANGUAGES = { en: "English", es: "Español" } as const;
export type BriefLanguage = keyof typeof BRIEF_LANGUAGES;

const WORDS: Readonly<Record<BriefLanguage, BriefWords>> = { en: english, es: spanish };

/** The words of a language. */
export const briefWords = (language: BriefLanguage): BriefWords => WORDS[language];
