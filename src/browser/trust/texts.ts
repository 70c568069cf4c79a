/** Every text of the page about trusting this computer. Names of menus: memory, they change. */

/** A kind of device, and what is done on it, step by step. */
export interface Way {
  readonly name: string;
  readonly steps: readonly string[];
  /** How the trust is taken back. */
  readonly back: string;
}

const ipad: Way = {
  name: 'iPad or iPhone',
  steps: [
    'Tap “Download the certificate” above, in Safari, and allow the download.',
    'Open Settings. Tap “Profile Downloaded” near the top, then “Install”.',
    'Still in Settings: General, About, Certificate Trust Settings. Turn on the line that begins ' +
      'with “Bowlworth of”.',
    'Come back to this page.',
  ],
  back: 'Settings, General, VPN & Device Management: remove the profile “Bowlworth of …”.',
};

const android: Way = {
  name: 'Android tablet or phone',
  steps: [
    'Tap “Download the certificate” above.',
    'Open Settings and search for “CA certificate” (under Security, Encryption & credentials, ' +
      'Install a certificate).',
    'Tap “Install anyway” and choose the file bowlworth-root.crt. The device may ask for its PIN.',
    'Come back to this page.',
  ],
  back: 'Settings, Trusted credentials, User: remove “Bowlworth of …”.',
};

const windows: Way = {
  name: 'Windows',
  steps: [
    'Choose “Download the certificate” above and open the file.',
    'Choose “Install Certificate”, “Current User”, then “Place all certificates in the following ' +
      'store”, and there “Trusted Root Certification Authorities”.',
    'Close the browser wholly and open this page again.',
  ],
  back: 'Run certmgr.msc: Trusted Root Certification Authorities, delete “Bowlworth of …”.',
};

const mac: Way = {
  name: 'Mac',
  steps: [
    'Choose “Download the certificate” above and open the file: Keychain Access takes it.',
    'Find “Bowlworth of …” there, open it, and under Trust choose “Always Trust”.',
    'Come back to this page.',
  ],
  back: 'Keychain Access: delete “Bowlworth of …”.',
};

const chrome: Way = {
  name: 'Chromebook, or Chrome on Linux',
  steps: [
    'Choose “Download the certificate” above.',
    'In the browser’s settings search for “certificates”: Manage certificates, Authorities (or ' +
      'Custom, Installed by you), Import. Choose the file and tick that it may identify websites.',
    'Come back to this page.',
  ],
  back: 'In the same place: delete “Bowlworth of …”.',
};

const firefox: Way = {
  name: 'Firefox on a computer',
  steps: [
    'Choose “Download the certificate” above.',
    'Settings, Privacy & Security, View Certificates, Authorities, Import. Choose the file and ' +
      'tick “Trust this CA to identify websites”.',
    'Come back to this page.',
  ],
  back: 'In the same place: delete “Bowlworth of …”.',
};

export const texts = {
  title: 'Use a tablet with Bowlworth',
  why:
    'Browsers give a page a scale, and let it open without a network, only over https. This ' +
    'computer made its own certificate for that. A tablet has to be told once to trust it.',
  trusted: 'This device trusts the computer.',
  overHttps:
    'This page came over https. Did the browser warn you on the way? Then the device does not ' +
    'trust the computer yet.',
  open: 'Open Bowlworth',
  notYet: 'This device does not trust the computer yet.',
  off: 'Https for tablets is off on this computer.',
  download: 'Download the certificate',
  steps: 'Then, once',
  menus: 'Names of menus differ a little from one version to the next.',
  check: 'Check before you install it',
  compare:
    'Where the device shows the certificate’s SHA-256 fingerprint, it must be this one, and the ' +
    'same that the computer printed when Bowlworth started:',
  addresses: 'Addresses',
  cautions: 'Cautions',
  caution: [
    'Only on devices of the studio, and only when they are in the studio’s own network.',
    'A device that trusts this certificate believes what this computer’s key signs: for ' +
      'addresses of private networks only, never for a site of the internet.',
    'The key lies in the folder “https” of Bowlworth’s data. Whoever copies it can play this ' +
      'computer to your tablets. Keep that folder to yourself.',
    'When the computer is sold, lost or replaced, take the trust back on each tablet.',
  ],
  back: 'To take it back:',
  notReached:
    'Nothing opens? The tablet must be in the same network, and the firewall of the computer ' +
    'must let this port in.',
  ways: { ipad, android, windows, mac, chrome, firefox },
};
