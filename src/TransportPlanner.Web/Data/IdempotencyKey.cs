using System.Security.Cryptography;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;

namespace TransportPlanner.Web.Data;

/// <summary>A POST that was answered, so that its repetition gets the same answer and makes nothing twice. Kept for 24 hours; of the body only a hash.</summary>
internal sealed class IdempotencyKey
{
    public static readonly TimeSpan Lifetime = TimeSpan.FromHours(24);

    public required string SiteId { get; init; }
    public required string Key { get; init; }

    /// <summary>SHA-256 of operation and body.</summary>
    public required string RequestHash { get; init; }
    public required int Status { get; init; }

    /// <summary>Id of what was made.</summary>
    public required string Reference { get; init; }
    public required DateTimeOffset CreatedAt { get; init; }
}

/// <summary>One request that carries an <c>Idempotency-Key</c>.</summary>
internal sealed record IdempotentRequest(string SiteId, string Key, string Hash)
{
    public const string Header = "Idempotency-Key";
    public const int MaxLength = 100;

    public static IdempotentRequest From<T>(string siteId, string key, string operation, T body) =>
        new(siteId, key, Convert.ToHexStringLower(SHA256.HashData(JsonSerializer.SerializeToUtf8Bytes(new { operation, body }))));

    /// <summary>The earlier answer under this key, or null. One older than 24 hours makes room.</summary>
    public async Task<IdempotencyKey?> FindAsync(PlannerContext context, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var oldest = now - IdempotencyKey.Lifetime;
        await context.IdempotencyKeys.Where(k => k.SiteId == SiteId && k.Key == Key && k.CreatedAt < oldest).ExecuteDeleteAsync(cancellationToken);
        return await context.IdempotencyKeys.AsNoTracking().SingleOrDefaultAsync(k => k.SiteId == SiteId && k.Key == Key, cancellationToken);
    }

    /// <summary>To be saved together with what was made.</summary>
    public IdempotencyKey Keep(int status, string reference, DateTimeOffset now) =>
        new() { SiteId = SiteId, Key = Key, RequestHash = Hash, Status = status, Reference = reference, CreatedAt = now };
}
