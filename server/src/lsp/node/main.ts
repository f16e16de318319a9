import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { serve } from '../serve.ts';

serve(createConnection(ProposedFeatures.all));
