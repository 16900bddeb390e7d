namespace TransportPlanner.Core.Tests;

/// <summary>Compares with a committed file; on a difference writes <c>.actual</c> beside it and shows the first lines that differ.</summary>
public static class Golden
{
    public static void AssertEqual(string file, string actual)
    {
        var path = Path.Combine(ProjectFolder(), file);
        var expected = File.Exists(path) ? File.ReadAllText(path) : "";
        if (expected.ReplaceLineEndings("\n") == actual.ReplaceLineEndings("\n"))
        {
            File.Delete($"{path}.actual");
            return;
        }

        File.WriteAllText($"{path}.actual", actual);
        var (was, now) = (expected.ReplaceLineEndings("\n").Split('\n'), actual.ReplaceLineEndings("\n").Split('\n'));
        var first = Enumerable.Range(0, Math.Max(was.Length, now.Length)).First(i => was.ElementAtOrDefault(i) != now.ElementAtOrDefault(i));
        Assert.Fail($"""
            {file} differs from line {first + 1}; {file}.actual holds what came. If the change is meant: mv {file}.actual {file}
            - {string.Join("\n- ", was.Skip(first).Take(5))}
            + {string.Join("\n+ ", now.Skip(first).Take(5))}
            """);
    }

    private static string ProjectFolder()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder.GetFiles("*.csproj").Length == 0)
        {
            folder = folder.Parent!;
        }

        return folder.FullName;
    }
}
