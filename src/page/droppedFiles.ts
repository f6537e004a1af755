import type { GivenFile } from './work/Task';

/** The files that were dropped, those in folders with their paths; hidden ones aside. */
export async function droppedFiles({ items, files }: DataTransfer): Promise<GivenFile[]> {
  // entries are there only until the event is over: all are taken at once
  const entries = [...items].flatMap((item) => item.webkitGetAsEntry?.() ?? []);
  if (entries.length === 0) return [...files].map((file) => ({ path: file.name, file }));
  return (await Promise.all(entries.map((entry) => filesIn(entry, '')))).flat();
}

async function filesIn(entry: FileSystemEntry, folder: string): Promise<GivenFile[]> {
  if (entry.name.startsWith('.')) return [];
  const path = folder + entry.name;
  if (entry.isFile) {
    const file = await new Promise<File>((resolve, reject) => (entry as FileSystemFileEntry).file(resolve, reject));
    return [{ path, file }];
  }
  const reader = (entry as FileSystemDirectoryEntry).createReader();
  const inside: FileSystemEntry[] = [];
  while (true) {
    // a hundred at a time, as browsers give them
    const some = await new Promise<FileSystemEntry[]>((resolve, reject) => reader.readEntries(resolve, reject));
    if (some.length === 0) break;
    inside.push(...some);
  }
  return (await Promise.all(inside.map((one) => filesIn(one, `${path}/`)))).flat();
}
