using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.Extensions.Options;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Http;
using TransportPlanner.Web.Routing;
using TransportPlanner.Web.Shared;

namespace TransportPlanner.Web.Commands;

/// <summary>
/// The planner for one question from the terminal: started quietly on a free port of this machine and asked through its own API, so that
/// the terminal, the pages and other programs get one answer and one set of refusals.
/// </summary>
internal sealed class LocalPlanner : IAsyncDisposable
{
    private readonly WebApplication _app;
    private readonly HttpClient _client;

    private LocalPlanner(WebApplication app)
    {
        _app = app;

        // A proxy of the environment has no business on this machine's own address.
        _client = new(new SocketsHttpHandler { UseProxy = false }) { BaseAddress = new(app.Urls.First()) };
    }

    public IServiceProvider Services => _app.Services;

    public JsonSerializerOptions Json => _app.Services.GetRequiredService<IOptions<Microsoft.AspNetCore.Http.Json.JsonOptions>>().Value.SerializerOptions;

    /// <summary>Null where database or data folder cannot be used; why is then said on <paramref name="error"/>.</summary>
    public static async Task<LocalPlanner?> StartAsync(StorageOptions.Given storage, TextWriter error, CancellationToken cancellationToken)
    {
        WebApplication? app = null;
        try
        {
            // Every answer is the first after a start: whoever waits for it at a terminal waits for all of it.
            app = Program.Build([
                $"--{WebHostDefaults.ServerUrlsKey}=http://127.0.0.1:0", $"--{RequestLog.QuietSetting}=true",
                FormattableString.Invariant($"--{SearchDeadline.Setting}={SearchDeadline.MaxMilliseconds}"), .. storage.ToSettings()]);
            await app.StartAsync(cancellationToken);
            return new(app);
        }
        catch (Exception e) when (storage.Complaint(e) is { } complaint)
        {
            await (app?.DisposeAsync() ?? ValueTask.CompletedTask);
            await error.WriteLineAsync(complaint);
            return null;
        }
    }

    /// <summary>Posts a body to an operation, named without its base path, and gives the status and what came back.</summary>
    public async Task<(int Status, string Text)> PostAsync(string operation, JsonObject body, CancellationToken cancellationToken)
    {
        using var content = new StringContent(body.ToJsonString(), Encoding.UTF8, new MediaTypeHeaderValue("application/json"));
        using var response = await _client.PostAsync(new Uri(OpenApi.BasePath + operation, UriKind.Relative), content, cancellationToken);
        return ((int)response.StatusCode, await response.Content.ReadAsStringAsync(cancellationToken));
    }

    /// <summary>Reads an operation, named without its base path; null where it does not answer 200.</summary>
    public async Task<JsonNode?> GetAsync(string operation, CancellationToken cancellationToken)
    {
        using var response = await _client.GetAsync(new Uri(OpenApi.BasePath + operation, UriKind.Relative), cancellationToken);
        return response.IsSuccessStatusCode ? JsonNode.Parse(await response.Content.ReadAsStringAsync(cancellationToken)) : null;
    }

    /// <summary>How a site reads; the one that nobody names, where it is empty.</summary>
    public async Task<SiteDisplay> DisplayAsync(string siteId, CancellationToken cancellationToken)
    {
        await using var scope = Services.CreateAsyncScope();
        var site = siteId.Length > 0 ? siteId : Services.GetRequiredService<FloorPlanStore>().Default?.Plan.SiteId ?? "";
        return SiteDisplay.Of(await SiteSettings.ReadAsync(scope.ServiceProvider.GetRequiredService<PlannerContext>(), site, cancellationToken));
    }

    public async ValueTask DisposeAsync()
    {
        _client.Dispose();
        await _app.DisposeAsync();
    }
}
