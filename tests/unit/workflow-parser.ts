import { build } from 'esbuild';

type WorkflowParser = typeof import('@actions/workflow-parser');

/** GitHub's own parser of workflows. It imports its JSON as a bundler takes it and Node does not, so it is bundled first. */
async function workflowParser(): Promise<WorkflowParser> {
  const { outputFiles } = await build({
    entryPoints: ['@actions/workflow-parser'],
    absWorkingDir: import.meta.dirname,
    bundle: true,
    write: false,
    format: 'esm',
    platform: 'neutral',
    mainFields: ['module', 'main'],
  });
  const code = Buffer.from(outputFiles[0]?.contents ?? []).toString('base64');
  return import(`data:text/javascript;base64,${code}`);
}

/** What it says of a workflow: by its schema, of the expressions in it, and of which job waits for which. */
export async function problemsOfWorkflow(name: string, content: string): Promise<string[]> {
  const { NoOperationTraceWriter, convertWorkflowTemplate, parseWorkflow } = await workflowParser();
  const { context, value } = parseWorkflow({ name, content }, new NoOperationTraceWriter());
  if (value) await convertWorkflowTemplate(context, value);
  return context.errors.getErrors().map(({ message }) => message);
}
