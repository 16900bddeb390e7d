using System.CommandLine;
using System.Data.Common;
using System.Net;
using Microsoft.AspNetCore.Connections;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Commands;

/// <summary><c>serve</c>, which is also what happens without a command.</summary>
internal static class ServeCommand
{
    public const string DefaultAddress = "http://127.0.0.1:5210";

    private const string Name = "serve";

    public static void AddTo(RootCommand root)
    {
        var urls = new Option<string?>("--urls") { Description = $"Address to listen on, on this machine only; default {DefaultAddress}.", HelpName = "address" };
        var folder = new Option<string?>("--data-folder") { Description = "Folder for database, logs and keys; default the user's own data folder.", HelpName = "path" };

        var serve = new Command(Name, "Serves the pages and the API until stopped (the default).");
        foreach (var command in new[] { root, serve })
        {
            command.Add(urls);
            command.Add(folder);
            command.TreatUnmatchedTokensAsErrors = false;
            command.SetAction(parsed =>
            {
                List<string> args = [.. parsed.UnmatchedTokens];
                if (parsed.GetValue(urls) is { } address)
                {
                    args.Add($"--urls={address}");
                }

                if (parsed.GetValue(folder) is { } path)
                {
                    args.Add($"--{DataFolder.Setting}={path}");
                }

                return RunAsync([.. args], parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error);
            });
        }

        root.Add(serve);
    }

    internal static bool Serves(ParseResult parsed) => parsed.CommandResult.Command is RootCommand or { Name: Name };

    /// <summary>Any setting as <c>--Section:Name=value</c>, and what test hosts add on their own; a slip such as --prot=5000 is neither.</summary>
    internal static bool IsHostSetting(string token) =>
        token.StartsWith("--", StringComparison.Ordinal) && token.IndexOf('=', StringComparison.Ordinal) is > 2 and var end
        && (char.IsAsciiLetterUpper(token[2]) || token[2..end] is "environment" or "contentRoot" or "applicationName");

    private static async Task<int> RunAsync(string[] args, TextWriter output, TextWriter error)
    {
        WebApplication built;
        try
        {
            built = Program.Build(args);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            await error.WriteLineAsync($"--data-folder: the data folder cannot be used: {e.Message}");
            return PlannerCommands.BadInput;
        }

        await using var app = built;
        var address = app.Configuration[WebHostDefaults.ServerUrlsKey] is { Length: > 0 } given ? given : DefaultAddress;
        if (Refusal(address) is { } refusal)
        {
            await error.WriteLineAsync(refusal);
            return PlannerCommands.BadInput;
        }

        app.Configuration[WebHostDefaults.ServerUrlsKey] = address;
        app.Lifetime.ApplicationStarted.Register(() => output.WriteLine($"Transport Planner is at {string.Join(" and ", app.Urls)} (Ctrl+C stops it)"));
        try
        {
            await app.RunAsync();
            return PlannerCommands.Done;
        }
        catch (IOException e) when (e.InnerException is AddressInUseException)
        {
            await error.WriteLineAsync($"--urls: {address} is in use by another program. Stop it, or choose another port, for example --urls http://127.0.0.1:{FreePortAfter(address)}");
            return PlannerCommands.BadInput;
        }
        catch (Exception e) when (e is DbException || e is InvalidOperationException { InnerException: DbException })
        {
            await error.WriteLineAsync($"ConnectionStrings:{Database.ConnectionName} or --data-folder: the database does not answer: {(e as DbException ?? e.InnerException!).Message}");
            return PlannerCommands.BadInput;
        }
    }

    /// <summary>There is no sign-in, so nobody but this machine may reach the planner.</summary>
    internal static string? Refusal(string addresses)
    {
        foreach (var text in addresses.Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            if (!Uri.TryCreate(text, UriKind.Absolute, out var address) || address.Scheme != Uri.UriSchemeHttp)
            {
                return $"--urls: \"{text}\" is not an address of the form {DefaultAddress}.";
            }

            if (!(address.Host == "localhost" || (IPAddress.TryParse(address.Host.Trim('[', ']'), out var ip) && IPAddress.IsLoopback(ip))))
            {
                return $"--urls: {text} can be reached from other machines, and the planner has no sign-in. Give 127.0.0.1 or localhost.";
            }
        }

        return null;
    }

    private static int FreePortAfter(string address) => new Uri(address.Split(';')[0]).Port + 1;
}
