using System.CommandLine;
using System.Text.Json;
using System.Text.Json.Nodes;
using TransportPlanner.Web.Http;
using TransportPlanner.Web.Routing;

namespace TransportPlanner.Web.Commands;

/// <summary>What the commands that ask the API share: run the question, print the answer as text or as the API's JSON, choose the exit code.</summary>
internal sealed class AskCommand
{
    private readonly StorageOptions _storage = new();
    private readonly Option<bool> _json = new("--json") { Description = "Print the answer as the API gives it." };

    public AskCommand(string name, string description, string example)
    {
        Command = new(name, $"{description}\n\nExample: {example}\n\nExit codes: 0 answered, 1 the planner says no, 2 bad input, named on the error stream, 3 a fault of the planner itself.") { _json };
        _storage.AddTo(Command);
    }

    public Command Command { get; }

    public Option<string?> Text(string name, string description, string help = "text") => Add(new Option<string?>(name) { Description = description, HelpName = help });

    public Option<string[]> Several(string name, string description, string help = "cylinder") =>
        Add(new Option<string[]>(name) { Description = description, HelpName = help, AllowMultipleArgumentsPerToken = false, Arity = ArgumentArity.OneOrMore });

    public Option<bool> Flag(string name, string description) => Add(new Option<bool>(name) { Description = description });

    /// <param name="operation">The operation without its base path.</param>
    /// <param name="ask">Fills the question in; it may look at the running planner, for example for a place's number.</param>
    /// <param name="print">Writes the answer for people.</param>
    public void Answer<T>(string operation, Func<Question, ParseResult, LocalPlanner, CancellationToken, Task> ask, Action<TextPage, T> print) =>
        Command.SetAction(async (parsed, cancellationToken) =>
        {
            var (output, error) = (parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error);
            await using var planner = await LocalPlanner.StartAsync(_storage.Of(parsed), error, cancellationToken);
            if (planner is null)
            {
                return PlannerCommands.BadInput;
            }

            var question = new Question(parsed);
            await ask(question, parsed, planner, cancellationToken);
            var show = await planner.DisplayAsync($"{question.Body["siteId"]}", cancellationToken);
            if (question.Refusals.Count > 0)
            {
                return await RefuseAsync(error, question.Refusals.Select(show.Words), PlannerCommands.BadInput);
            }

            var (status, text) = await planner.PostAsync(operation, question.Body, cancellationToken);
            if (status is StatusCodes.Status200OK or StatusCodes.Status201Created)
            {
                await output.WriteLineAsync(parsed.GetValue(_json) ? text : Page(JsonSerializer.Deserialize<T>(text, planner.Json)!));
                return PlannerCommands.Done;
            }

            // A problem that names a field is bad input; one that does not is the planner's no. No way is one too: it names what a way would need.
            var problem = JsonNode.Parse(text)!;
            var isNo = status == StatusCodes.Status422UnprocessableEntity && (problem["errors"] is null || $"{problem["code"]}" == Problems.CodeText(RouteProblem.NoRoute));
            var code = status >= StatusCodes.Status500InternalServerError ? PlannerCommands.Failed : isNo ? PlannerCommands.No : PlannerCommands.BadInput;
            return await RefuseAsync(error, question.Complaints(problem).Select(show.Words), code);

            string Page(T answer)
            {
                var page = new TextPage(show);
                print(page, answer);
                return $"{page}";
            }
        });

    private static async Task<int> RefuseAsync(TextWriter error, IEnumerable<string> sentences, int code)
    {
        foreach (var sentence in sentences)
        {
            await error.WriteLineAsync(sentence);
        }

        return code;
    }

    private T Add<T>(T option)
        where T : Option
    {
        Command.Add(option);
        return option;
    }
}
