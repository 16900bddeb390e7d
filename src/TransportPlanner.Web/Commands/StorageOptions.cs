using System.CommandLine;
using System.Data.Common;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Commands;

/// <summary>Where the planner keeps its data, as every command that needs it takes it.</summary>
internal sealed class StorageOptions
{
    public Option<string?> Connection { get; } = new("--connection")
    {
        Description = $"PostgreSQL connection string; default the setting ConnectionStrings:{Database.ConnectionName}, and without it the SQLite file of the data folder.",
        HelpName = "string",
    };

    public Option<string?> Folder { get; } = new("--data-folder") { Description = "Folder of the SQLite file; default the user's own data folder.", HelpName = "path" };

    public void AddTo(Command command)
    {
        command.Add(Connection);
        command.Add(Folder);
    }

    public Given Of(ParseResult parsed) => new(parsed.GetValue(Connection), parsed.GetValue(Folder));

    internal sealed record Given(string? Connection, string? Folder)
    {
        /// <summary>The option to look at when the database does not answer.</summary>
        public string Named => Connection is null && Folder is not null ? "--data-folder" : "--connection";

        public IEnumerable<string> ToSettings() =>
        [
            .. Connection is null ? [] : new[] { $"--ConnectionStrings:{Database.ConnectionName}={Connection}" },
            .. Folder is null ? [] : new[] { $"--{DataFolder.Setting}={Folder}" },
        ];

        /// <summary>What to tell about a start that failed; null for a failure that is no matter of storage.</summary>
        public string? Complaint(Exception failure) => failure switch
        {
            // Of a server that may come back, the reason stands inside.
            InvalidOperationException { InnerException: DbException inner } => Complaint(inner),
            DbException or ArgumentException => $"{Named}: the database does not answer: {failure.Message}",
            IOException or UnauthorizedAccessException => $"{(Connection is null ? "--data-folder" : Named)}: the data folder cannot be used: {failure.Message}",
            _ => null,
        };
    }
}
