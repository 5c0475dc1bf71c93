/** The style of the code page, kept in one piece so that the content security policy can name it by its hash. */
export const codePageStyle = `
body { margin: 0; font: 1.125rem/1.5 system-ui, sans-serif; background: #fff; color: #111; }
main { max-width: 28rem; margin: 0 auto; padding: 1.5rem; }
h1 { margin: .5rem 0 1rem; font-size: 1.6rem; line-height: 1.25; }
label { display: block; margin: 1.25rem 0 .4rem; font-weight: 600; }
input { box-sizing: border-box; width: 100%; min-height: 3.5rem; padding: .5rem .75rem; font: inherit; border: 2px solid #555; border-radius: .375rem; background: #fff; color: #111; }
input[name=code] { font-size: 1.75rem; letter-spacing: .15em; font-variant-numeric: tabular-nums; }
button { margin-top: 1.5rem; width: 100%; min-height: 3.5rem; font: inherit; font-weight: 600; border: 0; border-radius: .375rem; background: #123; color: #fff; }
:focus-visible { outline: 3px solid #06c; outline-offset: 2px; }
[role=alert] { border-left: .375rem solid #a00; padding: .5rem .75rem; background: #fee; }
@media (prefers-color-scheme: dark) {
  body { background: #111; color: #eee; } input { background: #000; color: #eee; border-color: #999; }
  button { background: #def; color: #111; } [role=alert] { background: #400; }
}
`;

/** The page on which a device that is not let in yet gives its code. It holds nothing of the book, and no script. */
export function codePage(message: string, name = ""): string {
  const alert = message === "" ? "" : `<p role="alert">${plainText(message)}</p>`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Let this device in</title>
<style>${codePageStyle}</style>
</head>
<body>
<main>
<h1>Let this device in</h1>
<p>The computer that holds the book shows a code of eight digits. It lets one device in.</p>
${alert}
<form method="post" action="/let-in" autocomplete="off">
<label for="code">Code</label>
<input id="code" name="code" inputmode="numeric" autocomplete="one-time-code" maxlength="12" required autofocus>
<label for="name">Name of this device, as the history will show it</label>
<input id="name" name="name" maxlength="60" required value="${plainText(name)}">
<button>Let it in</button>
</form>
</main>
</body>
</html>
`;
}

function plainText(text: string): string {
  return text.replace(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`);
}
