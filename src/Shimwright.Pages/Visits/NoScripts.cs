using Microsoft.JSInterop;

namespace Shimwright.Pages.Visits;

/// <summary>A page is made once and then leaves: none of it can call a script.</summary>
internal sealed class NoScripts : IJSRuntime
{
    public ValueTask<TValue> InvokeAsync<TValue>(string identifier, object?[]? args) => throw Refusal(identifier);

    public ValueTask<TValue> InvokeAsync<TValue>(string identifier, CancellationToken cancellationToken, object?[]? args) => throw Refusal(identifier);

    private static InvalidOperationException Refusal(string identifier) => new($"A page that is being made has no scripts; \"{identifier}\" was called.");
}
