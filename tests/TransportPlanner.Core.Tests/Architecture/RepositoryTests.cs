using System.Diagnostics;
using System.Text.RegularExpressions;

namespace TransportPlanner.Core.Tests.Architecture;

public sealed partial class RepositoryTests
{
    private static readonly string Root = Repository.Root;
    private static readonly string[] Files = ListFiles();
    private static readonly string[] Features = ["Airing", "Batteries", "Exposure", "FloorPlans", "Gas", "Kits", "Plans", "Posts", "Precautions", "Routing", "Travel", "Units"];

    /// <summary>Folders of the web project and of the tests that are no feature.</summary>
    private static readonly string[] OtherFolders =
        ["Architecture", "Browser", "Commands", "Data", "Http", "Imports", "Properties", "Reference", "Shared", "Sites", "wwwroot"];

    // Seen to fail: with a file of 404 lines in Core and one of 251 in Web, each row named its file.
    [Theory]
    [InlineData("src/TransportPlanner.Core/", 400)]
    [InlineData("src/TransportPlanner.Web/", 250)]
    public void Source_files_stay_short(string folder, int limit)
    {
        Findings.None(
            from file in Files
            where file.StartsWith(folder, StringComparison.Ordinal) && !file.Contains("/Migrations/", StringComparison.Ordinal)
            where Path.GetExtension(file) is ".cs" or ".cshtml"
            let lines = File.ReadLines(Path.Combine(Root, file)).Count()
            where lines > limit
            select $"{file} has {lines} lines, the limit is {limit}");
    }

    // Seen to fail: with notes.txt beside the README.
    [Fact]
    public void The_top_level_holds_the_agreed_names_only()
    {
        string[] agreed =
        [
            "README.md", "DEVELOPERS.md", "LICENSE", "TransportPlanner.sln", "src", "tests", "deploy", "docs",
            "Directory.Build.props", "Directory.Build.targets", "Directory.Packages.props",
        ];

        Findings.None(Files.Select(file => file.Split('/')[0]).Distinct().Where(name => name[0] != '.').Except(agreed));
    }

    // Seen to fail: with one documentation file for each kind of name; a path below a variable and the word in a web address passed.
    [Fact]
    public void No_file_names_a_path_of_one_machine_or_a_package_registry()
    {
        Findings.None(
            from file in Files
            where Path.GetExtension(file) is not (".png" or ".xlsx" or ".ico")
            from line in File.ReadLines(Path.Combine(Root, file)).Select((text, index) => (Text: text, Number: index + 1))
            where MachinePath().IsMatch(line.Text) || RegistryHost().IsMatch(line.Text) || (SiblingFolder().IsMatch(line.Text) && file != ".ci/run")
            select $"{file}:{line.Number}: {line.Text.Trim()}");
    }

    // Seen to fail: with a folder Helpers in Core, Odd in Web and Misc in the tests, each row named its folder.
    [Theory]
    [InlineData("src/TransportPlanner.Core")]
    [InlineData("src/TransportPlanner.Web")]
    [InlineData("tests/TransportPlanner.Core.Tests")]
    [InlineData("tests/TransportPlanner.Web.Tests")]
    public void A_folder_has_the_name_of_its_feature(string project)
    {
        string[] names = project.EndsWith("Core", StringComparison.Ordinal) ? Features : [.. Features, .. OtherFolders];

        Findings.None(
            from file in Files
            where file.StartsWith(project + "/", StringComparison.Ordinal)
            let parts = file[(project.Length + 1)..].Split('/')
            where parts.Length > 1 && !names.Contains(parts[0])
            select $"{project}/{parts[0]} is no feature, and not listed here as another folder");
    }

    // Seen to fail: while FloorPlans had neither, it named the page and the folder.
    [Fact]
    public void Every_feature_that_computes_has_tests_and_a_page_of_documentation() =>
        Findings.None(
            from feature in Features.Except(["Units", "Precautions"])
            where Files.Any(file => file.StartsWith($"src/TransportPlanner.Core/{feature}/", StringComparison.Ordinal))
            let page = $"docs/{WordStart().Replace(feature, "-$0").TrimStart('-').ToLowerInvariant()}.md"
            from needed in new[] { page, $"tests/TransportPlanner.Core.Tests/{feature}/" }
            where !Files.Any(file => file.StartsWith(needed, StringComparison.Ordinal))
            select $"{feature} lacks {needed}");

    // Brackets keep these patterns from matching this file.
    [GeneratedRegex(@"(?<![\w.}/-])/(work|tmp|root|home)(?=[/\s'""`)]|$)")]
    private static partial Regex MachinePath();

    [GeneratedRegex(@"nuget[.]org|npmjs[.](org|com)|deb[.]debian[.]org|docker[.]io|(ghcr|quay)[.]io|pypi[.]org", RegexOptions.IgnoreCase)]
    private static partial Regex RegistryHost();

    [GeneratedRegex(@"[.][.]/shared")]
    private static partial Regex SiblingFolder();

    [GeneratedRegex("[A-Z]")]
    private static partial Regex WordStart();

    /// <summary>Every file that is, or with the next commit may be, in the repository.</summary>
    private static string[] ListFiles()
    {
        var git = new ProcessStartInfo("git", ["-c", "core.quotePath=off", "-c", "safe.directory=*", "ls-files", "--cached", "--others", "--exclude-standard"])
        {
            WorkingDirectory = Root,
            RedirectStandardOutput = true,
        };
        using var process = Process.Start(git)!;
        var files = process.StandardOutput.ReadToEnd().Split('\n', StringSplitOptions.RemoveEmptyEntries);
        process.WaitForExit();
        Assert.NotEmpty(files);
        return [.. files.Where(file => File.Exists(Path.Combine(Root, file)))];
    }
}
