using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.Extensions.Options;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Http;

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
            app = Program.Build([$"--{WebHostDefaults.ServerUrlsKey}=http://127.0.0.1:0", $"--{RequestLog.QuietSetting}=true", .. storage.ToSettings()]);
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

    public async ValueTask DisposeAsync()
    {
        _client.Dispose();
        await _app.DisposeAsync();
    }
}
