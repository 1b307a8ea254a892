/**
 * Branded numbers. A plain `number` never crosses a module border for a length, an elevation or an angle:
 * the brand says the unit, and the compiler keeps units apart.
 */
declare const unit: unique symbol;

/** A length or elevation in building space, in inches. Binary fractions of an inch are exact. */
export type Inches = number & { readonly [unit]: "in" };
/** A length in sheet space: PDF user space units of the page, before page rotation. */
export type SheetUnits = number & { readonly [unit]: "sheet" };
/** A plane angle in radians. */
export type Radians = number & { readonly [unit]: "rad" };

/** Brands a number that is already in inches. */
export const inches = (n: number): Inches => n as Inches;
/** Brands a number that is already in user space units of a page. */
export const sheetUnits = (n: number): SheetUnits => n as SheetUnits;
/** Brands a number that is already in radians. */
export const radians = (n: number): Radians => n as Radians;

/** One inch is 25.4 mm exactly (international yard and pound agreement of 1959; NIST SP 811, B.8). */
export const MM_PER_INCH = 25.4;
