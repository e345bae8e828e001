// Starts the emulated server on the port given and says when it is up:
// node start.js PORT
const TelegramServer = require('telegram-test-api');

const server = new TelegramServer({ port: Number(process.argv[2]), host: '127.0.0.1' });
server.start().then(() => console.log('up'));
