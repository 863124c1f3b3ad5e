// Where to listen, checked before anything slow is done.
import { createServer } from "node:net";
import { Trouble } from "./bootstrap.mjs";

export function wishedPort(text = "3000") {
  const port = /^\d+$/.test(text.trim()) ? Number(text) : NaN;
  if (!(port >= 1 && port <= 65_535)) throw new Trouble(`PORT is "${text}"; it must be a whole number from 1 to 65535.`);
  return port;
}

export function portTaken(port) {
  return new Trouble(`Port ${port} is in use by another program: stop that one, or choose another port, for example PORT=${port < 65_535 ? port + 1 : 3000} npm start.`);
}

export function checkPort(port, host) {
  return new Promise((free, fail) => {
    const probe = createServer();
    probe.once("error", (error) => {
      if (error.code === "EADDRINUSE") fail(portTaken(port));
      else if (error.code === "EACCES") fail(new Trouble(`Port ${port} needs rights you do not have: choose one from 1024, for example PORT=3000 npm start.`));
      else fail(new Trouble(`Lehrbook cannot listen on ${host}:${port} (${error.code}): check LEHRBOOK_HOST.`));
    });
    probe.listen(port, host, () => probe.close(() => free()));
  });
}
