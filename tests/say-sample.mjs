console.log(`
To see the same beside the lines: open this folder in VS Code, press F5 (Run Tapeproof), and in the window that opens
choose fixtures/bracket/bracket.nc. Or pack it: npm run package, then install the .vsix.`);
