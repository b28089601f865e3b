/** The answer, or a rejection when it does not come in time: a stuck part must not hold up the rest. */
export function inTime<T>(answer: Promise<T>, milliseconds: number, what: string): Promise<T> {
  return new Promise((resolve, reject) => {
    const late = () => reject(new Error(`${what} gave no answer in ${milliseconds / 1000} s`));
    const timer = setTimeout(late, milliseconds);
    answer.then(resolve, reject).finally(() => clearTimeout(timer));
  });
}

export function answerOf<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}
