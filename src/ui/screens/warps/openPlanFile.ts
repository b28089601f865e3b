/** A file that was chosen or dropped here. What reads it is fetched with it. */
export async function openPlanFile(file: File): Promise<void> {
  await (await import('../../opening.ts')).openFile(file, 'plan');
}
