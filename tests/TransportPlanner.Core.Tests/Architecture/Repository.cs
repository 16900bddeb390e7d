namespace TransportPlanner.Core.Tests.Architecture;

/// <summary>The clone that the tests were built in.</summary>
public static class Repository
{
    public static string Root { get; } = FindRoot();

    private static string FindRoot()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "TransportPlanner.sln")))
        {
            folder = folder.Parent;
        }

        return folder?.FullName ?? throw new DirectoryNotFoundException("The tests run from a folder inside the repository.");
    }
}
