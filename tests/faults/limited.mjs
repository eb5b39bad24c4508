// The inside of a process with a limit of its own: calls the built program's function with what it is sent.
const { main } = await import(process.argv[2]);

// As the program itself does: the write fails and is told.
process.on('SIGXFSZ', () => undefined);
process.on('message', async (words) => {
  let err = '';
  const code = await main(words, { out: () => undefined, err: (text) => (err += text), alone: true });
  process.send({ code, err });
});
process.send('begun');
