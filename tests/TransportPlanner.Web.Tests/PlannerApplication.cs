using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.AspNetCore.TestHost;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Microsoft.Extensions.Time.Testing;

namespace TransportPlanner.Web.Tests;

/// <summary>The whole application in process, with its own clock and its own data folder (one SQLite file): one per test class, as a class fixture.</summary>
public sealed class PlannerApplication : WebApplicationFactory<Program>
{
    /// <summary>A Monday night, 02:10 UTC.</summary>
    public static readonly DateTimeOffset Start = new(2026, 5, 4, 2, 10, 0, TimeSpan.Zero);

    public FakeTimeProvider Time { get; } = new(Start);

    public string DataFolder { get; } = Directory.CreateTempSubdirectory("planner-tests-").FullName;

    /// <summary>A PostgreSQL database instead of the SQLite file.</summary>
    public string? ConnectionString { get; init; }

    /// <summary>How long a search for ways may take.</summary>
    public int SearchDeadlineMilliseconds { get; init; } = 60_000;

    /// <summary>Language of the pack; null: the setting is left out.</summary>
    public string? PackLanguage { get; init; }

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        builder.UseSetting("Planner:DataFolder", DataFolder);

        // On a loaded machine the first search of a process may take seconds: no answer is cut short unless a test asks for it.
        builder.UseSetting("Planner:SearchDeadlineMilliseconds", $"{SearchDeadlineMilliseconds}");
        if (PackLanguage is not null)
        {
            builder.UseSetting("Planner:PackLanguage", PackLanguage);
        }

        if (ConnectionString is not null)
        {
            builder.UseSetting("ConnectionStrings:Planner", ConnectionString);
        }

        builder.ConfigureTestServices(services => services.Replace(ServiceDescriptor.Singleton<TimeProvider>(Time)));
    }

    public override async ValueTask DisposeAsync()
    {
        await base.DisposeAsync();
        Directory.Delete(DataFolder, recursive: true);
    }
}
