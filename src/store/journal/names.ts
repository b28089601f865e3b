/** Where the journal lies in the origin's private file system. */
export const FOLDER = 'fellmark';
export const NAMES = ['journal-0.txt', 'journal-1.txt'] as const;
