// Loaded into the web server: when the process that started it is gone, however it went, this one goes too.
// What the web server starts in turn inherits this line, and needs its own channel held open: it is left alone.
if (process.connected && process.env.LEHRBOOK_PARENT === String(process.ppid)) {
  process.on("disconnect", () => process.exit(1));
  process.channel?.unref();
}
