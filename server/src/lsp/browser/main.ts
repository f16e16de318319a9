import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import { serve } from '../serve.ts';
import { workHere } from '../work/here.ts';

const scope = self as unknown as DedicatedWorkerGlobalScope;
serve(createConnection(new BrowserMessageReader(scope), new BrowserMessageWriter(scope)), workHere());
