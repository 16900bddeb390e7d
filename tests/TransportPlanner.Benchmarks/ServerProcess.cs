using System.Diagnostics;
using System.Net.Http.Headers;
using System.Text;

namespace TransportPlanner.Benchmarks;

/// <summary>The planner as its users run it: a process of its own on a free port of 127.0.0.1, with the given data folder.</summary>
internal sealed class ServerProcess : IAsyncDisposable
{
    private const string Announcement = "Transport Planner is at ";

    private readonly Process _process;

    private ServerProcess(Process process, Uri address, double millisecondsToAddress)
    {
        (_process, MillisecondsToAddress) = (process, millisecondsToAddress);
        Client = new(new SocketsHttpHandler { UseProxy = false }) { BaseAddress = address };
    }

    public HttpClient Client { get; }

    /// <summary>From just before the start of the process until it printed its address: database and floor plans are then loaded.</summary>
    public double MillisecondsToAddress { get; }

    /// <summary>The planner that was built with this program.</summary>
    public static string BuiltHere => Path.Combine(AppContext.BaseDirectory, "TransportPlanner.Web.dll");

    /// <param name="file">A .dll for <c>dotnet</c>, or a program.</param>
    /// <param name="dataFolder">Its database, logs and keys.</param>
    public static async Task<ServerProcess> StartAsync(string file, string dataFolder)
    {
        string[] command = Path.GetExtension(file) == ".dll" ? ["dotnet", file] : [file];
        string[] arguments = [.. command[1..], "serve", "--urls", "http://127.0.0.1:0", "--data-folder", dataFolder];
        var start = Stopwatch.GetTimestamp();
        var process = Process.Start(new ProcessStartInfo(command[0], arguments)
        {
            // The settings file is read from the folder where the planner is started.
            WorkingDirectory = Path.GetDirectoryName(file),
            RedirectStandardOutput = true,
        })!;
        while (await process.StandardOutput.ReadLineAsync() is { } line)
        {
            if (line.StartsWith(Announcement, StringComparison.Ordinal))
            {
                var milliseconds = Figures.Since(start);
                // It prints a line a request, and would wait if nobody read them.
                _ = process.StandardOutput.BaseStream.CopyToAsync(Stream.Null);
                return new(process, new(line[Announcement.Length..].Split(' ')[0]), milliseconds);
            }
        }

        await process.WaitForExitAsync();
        throw new BadInputException($"{file} ended with code {process.ExitCode} before it printed its address.");
    }

    public static StringContent Json(string body) => new(body, Encoding.UTF8, new MediaTypeHeaderValue("application/json"));

    /// <summary>Memory in megabytes of 10⁶ bytes: resident now, and the most that ever was.</summary>
    public (double Now, double Most) ResidentMegabytes()
    {
        _process.Refresh();
        return (_process.WorkingSet64 / 1e6, _process.PeakWorkingSet64 / 1e6);
    }

    public async ValueTask DisposeAsync()
    {
        Client.Dispose();
        _process.Kill();
        await _process.WaitForExitAsync();
        _process.Dispose();
    }
}
