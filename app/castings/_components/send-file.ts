/**
 * Sends a file as the body of a request and gives the JSON that is answered. Not by fetch, which cannot
 * say how much has been sent: over a workshop's radio link 40 MB take minutes.
 */
export function sendFile(address: string, file: File, signal: AbortSignal, tell: (percent: number) => void): Promise<unknown> {
  return new Promise((done, failed) => {
    const request = new XMLHttpRequest();
    request.open("POST", address);
    request.responseType = "json";
    request.setRequestHeader("Content-Type", "application/octet-stream");
    request.upload.onprogress = ({ loaded, total }) => tell(total > 0 ? Math.round((100 * loaded) / total) : 0);
    request.onload = () => (request.response === null ? failed(new Error(`answered ${request.status}`)) : done(request.response));
    request.onerror = () => failed(new Error("not sent"));
    request.onabort = () => failed(new Error("given up"));
    signal.addEventListener("abort", () => request.abort());
    request.send(file);
  });
}
