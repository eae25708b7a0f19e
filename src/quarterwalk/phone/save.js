/** The journal as a file: the way to the office where there is no signal at all. */

/** Name and write the file: every entry this phone holds, one a line. */
export function journalFile(device, day, records) {
  return {
    name: `quarterwalk-${device}-${day}.ndjson`,
    text: records.map(({ line }) => `${line}\n`).join(''),
  };
}

/** Hand the file to the browser to be saved. */
export function saveFile({ name, text }) {
  const url = URL.createObjectURL(new Blob([text], { type: 'application/x-ndjson' }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  // Some browsers read the address only after the click has been handled.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}
