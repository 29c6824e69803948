// Passkeys: the browser makes and shows them, the archive asks and checks. Without script there is the password.
const said = document.querySelector('[data-passkey-said]');
const buttons = document.querySelectorAll('button[data-passkey]');

const send = async (path, body) => {
  const answer = await fetch(path, { method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(body ?? {}) });
  const told = answer.status === 204 ? null : await answer.json();
  if (!answer.ok) throw new Error(told?.detail ?? t('That did not go.'));
  return told;
};

const doings = {
  async make() {
    const options = PublicKeyCredential.parseCreationOptionsFromJSON(await send('/api/account/passkeys/options'));
    const credential = await navigator.credentials.create({ publicKey: options });
    await send('/api/account/passkeys', { name: document.querySelector('#passkey-name').value, credential: credential.toJSON() });
    location.assign('/account');
  },
  async 'sign-in'(button) {
    const options = PublicKeyCredential.parseRequestOptionsFromJSON(await send('/api/account/sign-in/passkey/options'));
    const credential = await navigator.credentials.get({ publicKey: options });
    await send('/api/account/sign-in/passkey', { credential: credential.toJSON() });
    location.assign(button.dataset.back || '/');
  },
};

if (window.PublicKeyCredential?.parseCreationOptionsFromJSON) {
  for (const button of buttons) {
    button.hidden = false;
    button.addEventListener('click', async () => {
      said.textContent = '';
      button.disabled = true;
      try {
        await doings[button.dataset.passkey](button);
      } catch (wrong) {
        said.textContent = wrong.name === 'NotAllowedError' ? t('No passkey was given.') : wrong.message;
      }
      button.disabled = false;
    });
  }
  document.querySelector('[data-passkey-form]')?.removeAttribute('hidden');
}
