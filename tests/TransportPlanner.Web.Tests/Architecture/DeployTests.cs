using System.Text.RegularExpressions;
using TransportPlanner.Core.Tests.Architecture;
using TransportPlanner.Web.Commands;

namespace TransportPlanner.Web.Tests.Architecture;

/// <summary>What the files in deploy/ ask of the program must be there.</summary>
public sealed partial class DeployTests
{
    private static readonly string Folder = Path.Combine(Repository.Root, "deploy");

    public static TheoryData<string> Commands =>
    [
        .. from file in Directory.GetFiles(Folder).Order()
           from Match match in Command().Matches(File.ReadAllText(file))
           select match.Groups[1].Value,
    ];

    [Theory]
    [MemberData(nameof(Commands))]
    public async Task Every_command_of_a_service_is_one_of_the_program(string command)
    {
        var words = command.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        var (output, error) = (new StringWriter(), new StringWriter());

        Assert.Equal(PlannerCommands.Done, await PlannerCommands.RunAsync([words[0], "--help"], output, error));

        Findings.None(words.Skip(1).Where(word => word.StartsWith("--", StringComparison.Ordinal) && !$"{output}".Contains(word, StringComparison.Ordinal)));
        if (words.SkipWhile(word => word != "--urls").ElementAtOrDefault(1) is { } address)
        {
            Assert.Null(ServeCommand.Refusal(address));
        }
    }

    [Fact]
    public void Serving_migrating_and_copying_are_all_described()
    {
        var described = Commands.Select(row => row.Data.Split(' ')[0]).ToHashSet();

        Assert.All(new[] { "serve", "migrate", "backup" }, command => Assert.Contains(command, described));
    }

    // To the end of the line, or of what a shell is given.
    [GeneratedRegex(@"TransportPlanner\.Web ([a-z]+ ?[^'`;\r\n]*)")]
    private static partial Regex Command();
}
