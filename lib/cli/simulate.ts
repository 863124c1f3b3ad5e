/** npm run --silent simulate -- file.json: its place is kept, so that scripts can be written against its name. */
process.stderr.write("not built yet\n");
process.exitCode = 3;
