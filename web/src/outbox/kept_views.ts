// What was last seen of jobs and benches, for when the connection goes. Only while somebody is signed in: whoever picks up
// a tablet that was signed out finds no customer's job on it. What waits to be sent is another matter and stays.
import { clear, read, write } from './database';

let somebodyIsHere = true;

export async function keepView(name: string, view: unknown): Promise<void> {
  if (somebodyIsHere) await write('views', name, view);
}

export const keptView = <T>(name: string): Promise<T | undefined> => read<T>('views', name);

/** Told at every change of who is signed in; null: nobody. An answer still on its way is then not kept either. */
export async function viewsAreFor(person: string | null): Promise<void> {
  somebodyIsHere = person !== null;
  if (!somebodyIsHere) await clear('views');
}
