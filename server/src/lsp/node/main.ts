import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { serve } from '../serve.ts';
import { workInThread } from './thread.ts';

serve(createConnection(ProposedFeatures.all), workInThread(__dirname));
