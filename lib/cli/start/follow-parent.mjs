// Loaded into the web server: when the process that started it is gone, however it went, this one goes too.
if (process.connected) {
  process.on("disconnect", () => process.exit(1));
  process.channel?.unref();
}
