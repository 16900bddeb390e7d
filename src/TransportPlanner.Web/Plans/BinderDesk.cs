using System.Collections.Concurrent;
using System.Text.Json;
using System.Threading.Channels;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Plans;

/// <summary>Where the binder of a site stands, as one reader sees it.</summary>
internal sealed record BinderState
{
    /// <summary>Null until somebody chose.</summary>
    public BinderRequest? Choices { get; init; }

    /// <summary>The last one that was made to its end; a newer one takes its place only when it is whole.</summary>
    public Binder? Made { get; init; }
    public bool IsBeingMade { get; init; }
    public int Done { get; init; }
    public int Of { get; init; }

    /// <summary>A person stopped it: it is not made again by itself.</summary>
    public bool IsStopped { get; init; }

    /// <summary>A fault of the planner ended it: it is not made again by itself.</summary>
    public bool HasFailed { get; init; }
}

/// <summary>
/// Makes binders one after another behind the requests, and again when what they rest on changes: looked at every minute. The sheets are
/// kept in memory, the choices in a file of the data folder, so that a restart makes every binder anew.
/// </summary>
internal sealed partial class BinderDesk(
    IServiceScopeFactory scopes, DataFolder folder, FloorPlanStore store, TimeProvider time, ILogger<BinderDesk> logger) : BackgroundService
{
    public static readonly TimeSpan Interval = TimeSpan.FromMinutes(1);

    private readonly Channel<string> _queue = Channel.CreateUnbounded<string>();
    private readonly ConcurrentDictionary<string, BinderState> _states = new();
    private readonly ConcurrentDictionary<string, CancellationTokenSource> _stops = new();
    private readonly Lock _file = new();

    private string ChoicesFile => Path.Combine(folder.Path, "binders.json");

    public BinderState Of(string siteId) => _states.GetValueOrDefault(siteId) ?? new();

    /// <summary>Begins, or begins again where it is being made with other choices.</summary>
    public void Start(string siteId, BinderRequest choices)
    {
        Stop(siteId);
        Begin(siteId, choices);
        Keep();
    }

    /// <summary>False where nothing is being made.</summary>
    public bool Stop(string siteId)
    {
        if (!_stops.TryRemove(siteId, out var stop))
        {
            return false;
        }

        stop.Cancel();
        Change(siteId, state => state with { IsBeingMade = false, IsStopped = true });
        return true;
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        foreach (var (siteId, choices) in Kept())
        {
            Begin(siteId, choices);
        }

        await Task.WhenAll(WorkAsync(stoppingToken), LookAsync(stoppingToken));
    }

    private void Begin(string siteId, BinderRequest choices)
    {
        _stops[siteId] = new();
        Change(siteId, state => new() { Choices = choices, Made = state.Made, IsBeingMade = true });
        _queue.Writer.TryWrite(siteId);
    }

    private async Task WorkAsync(CancellationToken stoppingToken)
    {
        await foreach (var siteId in _queue.Reader.ReadAllAsync(stoppingToken))
        {
            if (_stops.TryGetValue(siteId, out var stop) && Of(siteId).Choices is { } choices)
            {
                using var either = CancellationTokenSource.CreateLinkedTokenSource(stop.Token, stoppingToken);
                await MakeAsync(siteId, choices, stop, either.Token);
            }
        }
    }

    private async Task MakeAsync(string siteId, BinderRequest choices, CancellationTokenSource stop, CancellationToken cancellationToken)
    {
        // A set that was stopped, or begun with other choices meanwhile, must not speak for the one that holds now.
        void Tell(Func<BinderState, BinderState> change) =>
            Change(siteId, state => _stops.TryGetValue(siteId, out var current) && current == stop ? change(state) : state);
        try
        {
            if (!store.TryFind(siteId, out var site))
            {
                return;
            }

            await using var scope = scopes.CreateAsyncScope();
            var made = await BinderMaker.MakeAsync(
                scope.ServiceProvider.GetRequiredService<PlannerContext>(), site, choices, time.GetUtcNow(),
                (done, of) => Tell(state => state with { Done = done, Of = of }), cancellationToken);
            Tell(state => state with { Made = made, IsBeingMade = false });
        }
        catch (OperationCanceledException)
        {
            // Whoever stopped it has said so in the state.
        }
        catch (Exception e)
        {
            LogFailure(logger, e, siteId);
            Tell(state => state with { IsBeingMade = false, HasFailed = true });
        }
        finally
        {
            _stops.TryRemove(KeyValuePair.Create(siteId, stop));
        }
    }

    /// <summary>Begins anew what rests on an older floor plan, on other closures, settings or sizes.</summary>
    private async Task LookAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(Interval, time);
        while (await timer.WaitForNextTickAsync(stoppingToken))
        {
            foreach (var (siteId, state) in _states)
            {
                try
                {
                    if (state is { IsBeingMade: false, IsStopped: false, HasFailed: false, Made: { } made, Choices: { } choices }
                        && store.TryFind(siteId, out var site))
                    {
                        await using var scope = scopes.CreateAsyncScope();
                        var now = await BinderBasis.ReadAsync(
                            scope.ServiceProvider.GetRequiredService<PlannerContext>(), site.Plan, time.GetUtcNow(), stoppingToken);
                        if (now != made.Basis)
                        {
                            Begin(siteId, choices);
                        }
                    }
                }
                catch (Exception e) when (e is not OperationCanceledException)
                {
                    // A database that is away for a minute must not end the look: the next one sees what this one missed.
                    LogFailure(logger, e, siteId);
                }
            }
        }
    }

    private void Change(string siteId, Func<BinderState, BinderState> change) =>
        _states.AddOrUpdate(siteId, _ => change(new()), (_, state) => change(state));

    private void Keep()
    {
        lock (_file)
        {
            File.WriteAllText(ChoicesFile, JsonSerializer.Serialize(
                _states.Where(state => state.Value.Choices is not null).ToDictionary(state => state.Key, state => state.Value.Choices)));
        }
    }

    private Dictionary<string, BinderRequest> Kept()
    {
        try
        {
            return File.Exists(ChoicesFile) ? JsonSerializer.Deserialize<Dictionary<string, BinderRequest>>(File.ReadAllText(ChoicesFile)) ?? [] : [];
        }
        catch (Exception e) when (e is JsonException or IOException)
        {
            LogFailure(logger, e, ChoicesFile);
            return [];
        }
    }

    [LoggerMessage(LogLevel.Error, "The binder of {Site} could not be made")]
    private static partial void LogFailure(ILogger logger, Exception exception, string site);
}
