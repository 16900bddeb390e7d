namespace TransportPlanner.Web.Data;

/// <summary>Where the planner keeps its files on this machine: database, logs, keys. Set by <c>Planner:DataFolder</c>, else the user's own data folder.</summary>
internal sealed class DataFolder
{
    public const string Setting = "Planner:DataFolder";

    public DataFolder(IConfiguration configuration)
    {
        // Without Create the answer is empty in a home folder that nothing has used yet.
        Path = configuration[Setting] is { Length: > 0 } given
            ? System.IO.Path.GetFullPath(given)
            : System.IO.Path.Combine(
                Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.Create), "transport-planner");
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(Path);
        }
        else
        {
            Directory.CreateDirectory(Path, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        }
    }

    public string Path { get; }
    public string Database => System.IO.Path.Combine(Path, "planner.db");
    public string Logs => System.IO.Path.Combine(Path, "logs");

    /// <summary>Uploaded files while they are read; each is deleted then.</summary>
    public string Uploads => System.IO.Path.Combine(Path, "uploads");
    public string Keys => System.IO.Path.Combine(Path, "keys");
}
